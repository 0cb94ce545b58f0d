package window

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/safefile"
)

// Extension of job files.
const Extension = ".armscribe.yaml"

// openPath opens a job file, asking first about unsaved changes.
func (w *Window) openPath(path string) {
	d, err := document.Open(path)
	if err != nil {
		w.showProblems("This file does not open", err)
		return
	}
	w.keepOrLose("open another job", func() {
		w.addRecent(absolute(path))
		w.use(d)
	})
}

func absolute(path string) string {
	if a, err := filepath.Abs(path); err == nil {
		return a
	}
	return path
}

// askOpen lets the user choose a job file. What becomes of unsaved changes is
// asked once one is chosen.
func (w *Window) askOpen() {
	w.dialogs.ChooseFile("Open a job", w.folder(), []string{".yaml", ".yml"}, w.openPath)
}

// folder is where files are looked for first: beside the open one, or at home.
func (w *Window) folder() string {
	if w.doc != nil && w.doc.Path() != "" {
		return filepath.Dir(absolute(w.doc.Path()))
	}
	if home, err := os.UserHomeDir(); err == nil {
		return home
	}
	return "."
}

// save writes the job to its file, or asks for one; done follows a success.
func (w *Window) save(done func()) {
	if w.doc.Path() == "" {
		w.saveAs(done)
		return
	}
	w.saveTo(w.doc.Path(), done)
}

func (w *Window) saveTo(path string, done func()) {
	w.cancelHand()
	w.photo.savingAs(path)
	w.saved(path, w.doc.Save(path), done)
}

// saved follows an attempt to save.
func (w *Window) saved(path string, err error, done func()) {
	w.showTitle()
	switch {
	case errors.Is(err, document.ErrChangedOnDisk):
		w.askSaveOver(path, done)
		return
	case errors.Is(err, document.ErrExists):
		w.askReplace(path, done)
		return
	case errors.As(err, new(*safefile.NotSynced)):
		w.showProblems("Saved, but not yet safe from a power cut", err)
		return
	case err != nil:
		w.showProblems("Not saved: the file on disk is as it was", err)
		return
	}
	w.keptSaved()
	w.addRecent(absolute(path))
	w.showMenus()
	w.showCard()
	w.say("Saved " + absolute(path) + ".")
	w.writeState()
	if done != nil {
		done()
	}
}

// askSaveOver asks before what another program wrote to the job's file is replaced.
func (w *Window) askSaveOver(path string, done func()) {
	name := filepath.Base(path)
	w.dialogs.Ask("Another program has changed this file",
		name+" is not as it was when it was opened or saved here. If you replace it, what it holds now goes to "+name+".bak. If you reload it, undo brings your own work back.",
		680, false,
		keyed.Choice{Text: "Keep editing"},
		keyed.Choice{Text: "Save under another name", Do: func() { w.saveAs(done) }},
		keyed.Choice{Text: "Reload it", Do: w.reload},
		keyed.Choice{Text: "Replace it", Do: func() { w.saved(path, w.doc.SaveOver(path), done) }})
}

// askReplace asks before some other file is replaced.
func (w *Window) askReplace(path string, done func()) {
	name := filepath.Base(path)
	w.dialogs.Ask("This file exists", name+" exists already. Its present content is kept as "+name+".bak.", keyed.Usual, false,
		keyed.Choice{Text: "Keep editing"},
		keyed.Choice{Text: "Choose another name", Do: func() { w.saveUnder(filepath.Dir(path), name, done) }},
		keyed.Choice{Text: "Replace it", Do: func() { w.saved(path, w.doc.SaveOver(path), done) }})
}

// reload takes what the job's file holds now; it can be undone.
func (w *Window) reload() {
	w.cancelHand()
	if err := w.doc.Reload(); err != nil {
		w.showProblems("This file does not open", err)
		return
	}
	w.diskState = document.SameOnDisk
	w.refresh()
	w.say("Reloaded " + absolute(w.doc.Path()) + ". Undo brings back what was here.")
}

// saveAs asks for folder and name. The toolkit's own dialog is not used: it
// empties the file before anything is written.
func (w *Window) saveAs(done func()) {
	w.saveUnder(w.folder(), w.suggestName(), done)
}

func (w *Window) saveUnder(inFolder, underName string, done func()) {
	folder, name := keyed.NewEntry(inFolder), keyed.NewEntry(underName)
	refusal := widget.NewLabel("")
	name.Validator = func(text string) error {
		refusal.SetText("")
		err := fileName(text)
		if err != nil {
			refusal.SetText("✕ This name " + err.Error() + ".")
		}
		return err
	}
	browse := keyed.NewButton("Browse…", func() {
		w.dialogs.ChooseFolder("Choose a folder", folder.Text, folder.SetText)
	})
	form := []*widget.FormItem{
		widget.NewFormItem("File name", name),
		widget.NewFormItem("Folder", folder),
		widget.NewFormItem("", container.NewHBox(browse, refusal)),
	}
	w.dialogs.Form("Save the job as", "Save", "Keep editing", form, 640, func() {
		w.saveTo(pathOf(folder.Text, name.Text), done)
	})
}

// pathOf joins folder and name; a name that is a whole path stands for itself.
func pathOf(folder, name string) string {
	name = withExtension(name)
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(folder, name)
}

// fileName says at once that a name is too long to be saved under.
func fileName(name string) error {
	if err := safefile.CheckName(withExtension(name)); err != nil {
		what, cure := safefile.Explain(err)
		return errors.New(what + "; " + cure)
	}
	return nil
}

// suggestName makes a file name of the job's name.
func (w *Window) suggestName() string {
	if p := w.doc.Path(); p != "" {
		return filepath.Base(p)
	}
	name := strings.Map(func(r rune) rune {
		switch {
		case strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ':
			return -1
		case r == ' ' || r == ',':
			return '-'
		}
		return r
	}, strings.ToLower(w.doc.Job().Name))
	return withExtension(strings.ReplaceAll(name, "--", "-"))
}

func withExtension(name string) string {
	name = strings.TrimSpace(name)
	if strings.HasSuffix(name, ".yaml") || strings.HasSuffix(name, ".yml") {
		return name
	}
	return name + Extension
}

// keepOrLose asks what becomes of unsaved changes before something replaces them.
func (w *Window) keepOrLose(what string, then func()) {
	if w.doc == nil || !w.doc.Changed() {
		then()
		return
	}
	w.dialogs.Ask("Save before you "+what+"?", w.doc.Job().Name+" has changes that are not saved.", keyed.Usual, true,
		keyed.Choice{Text: "Keep editing"},
		keyed.Choice{Text: "Discard changes", Do: then},
		keyed.Choice{Text: "Save", Do: func() { w.save(then) }})
}

// showProblems shows an error, every problem of a job file on a line of its own.
func (w *Window) showProblems(title string, err error) {
	var list job.Problems
	text := err.Error()
	if errors.As(err, &list) && len(list) > 1 {
		title = fmt.Sprintf("%s: %d problems", title, len(list))
	}
	w.showText(title, text, "Close", nil)
}
