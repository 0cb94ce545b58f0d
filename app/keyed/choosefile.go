package keyed

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// chooser lists a folder, from which a file or the folder itself is chosen.
type chooser struct {
	folder  *Entry
	find    *Entry // narrows the list
	rows    *fyne.Container
	scroll  *container.Scroll
	note    *widget.Label
	endings []string // of the files that are listed; nil for folders only
	here    string
	took    func(path string)
}

// mostListed is how many names are listed at once: each is a button.
const mostListed = 300

// ChooseFile lets the user choose a file with one of the endings, beginning in a
// folder.
func (d *Dialogs) ChooseFile(title, folder string, endings []string, then func(path string)) {
	d.choose(title, folder, endings, then)
}

// ChooseFolder lets the user choose a folder, beginning in another.
func (d *Dialogs) ChooseFolder(title, folder string, then func(path string)) {
	d.choose(title, folder, nil, then)
}

func (d *Dialogs) choose(title, folder string, endings []string, then func(path string)) {
	c := &chooser{folder: NewEntry(folder), find: NewEntry(""), rows: container.NewVBox(), note: widget.NewLabel(""), endings: endings}
	c.note.Wrapping = fyne.TextWrapWord
	c.find.SetPlaceHolder("part of the name")
	c.scroll = container.NewVScroll(c.rows)
	var open *dialog.CustomDialog
	c.took = func(path string) {
		open.Hide()
		then(path)
	}
	c.folder.OnSubmitted = c.typed
	c.find.OnChanged = func(string) { c.list() }
	c.find.OnSubmitted = func(string) { c.only() }
	up := NewButtonWithIcon("", theme.MoveUpIcon(), func() { c.enter(filepath.Dir(c.here)) })
	head := container.NewVBox(container.NewBorder(nil, nil, widget.NewLabel("Folder"), up, c.folder),
		container.NewBorder(nil, nil, widget.NewLabel("Find"), nil, c.find), c.note)
	buttons := []*Button{NewButton("Cancel", func() { open.Hide() })}
	if endings == nil {
		yes := NewButton("Choose this folder", func() { c.took(c.here) })
		yes.Importance = widget.HighImportance
		buttons = append(buttons, yes)
	}
	const width, height = 640, 520
	open = d.Open(Dialog{Title: title, Content: container.NewBorder(head, nil, nil, nil, c.scroll), Size: fyne.NewSize(width, height), Buttons: buttons, Focus: c.find})
	c.enter(folder)
}

// typed takes a path that was typed: of a folder to list, or of a file.
func (c *chooser) typed(path string) {
	path = strings.TrimSpace(path)
	if !filepath.IsAbs(path) {
		path = filepath.Join(c.here, path)
	}
	switch info, err := os.Stat(path); {
	case err != nil:
		c.say("✕ " + err.Error())
	case info.IsDir():
		c.enter(path)
	case c.endings != nil:
		c.took(path)
	default:
		c.say("✕ " + filepath.Base(path) + " is a file; choose a folder.")
	}
}

// enter lists another folder.
func (c *chooser) enter(folder string) {
	c.here = folder
	c.folder.SetText(folder)
	c.find.SetText("")
	c.list()
	c.scroll.ScrollToTop()
}

// only takes what is listed, if it is one thing.
func (c *chooser) only() {
	if len(c.rows.Objects) == 1 {
		c.rows.Objects[0].(*Button).OnTapped()
	}
}

// list shows what of the folder is wanted: folders first, then files.
func (c *chooser) list() {
	c.rows.Objects = nil
	names, err := os.ReadDir(c.here) // what could be read of it is listed too
	c.say("")
	if err != nil {
		c.say("✕ " + err.Error())
	}
	names = slices.DeleteFunc(names, func(e os.DirEntry) bool { return !c.wants(e) })
	slices.SortStableFunc(names, func(a, b os.DirEntry) int {
		if isFolder(c.here, a) != isFolder(c.here, b) {
			if isFolder(c.here, a) {
				return -1
			}
			return 1
		}
		return cmp.Compare(strings.ToLower(a.Name()), strings.ToLower(b.Name()))
	})
	if len(names) > mostListed {
		c.say(fmt.Sprintf("The first %d of %d; type a part of the name to find the others.", mostListed, len(names)))
		names = names[:mostListed]
	}
	for _, e := range names {
		path := filepath.Join(c.here, e.Name())
		b := NewButtonWithIcon(e.Name(), theme.FileIcon(), func() { c.took(path) })
		if isFolder(c.here, e) {
			b.Icon, b.OnTapped = theme.FolderIcon(), func() { c.enter(path) }
		}
		b.Alignment, b.Importance = widget.ButtonAlignLeading, widget.LowImportance
		c.rows.Add(b)
	}
	if len(names) == 0 && err == nil {
		c.say("Nothing here" + map[bool]string{true: " with that in its name", false: ""}[c.find.Text != ""] + ".")
	}
	c.rows.Refresh()
}

// say says what is wrong or missing; nothing takes no room.
func (c *chooser) say(text string) {
	c.note.SetText(text)
	if c.note.Show(); text == "" {
		c.note.Hide()
	}
}

// wants tells whether an entry is listed: hidden ones are not.
func (c *chooser) wants(e os.DirEntry) bool {
	name := strings.ToLower(e.Name())
	if strings.HasPrefix(name, ".") || !strings.Contains(name, strings.ToLower(c.find.Text)) {
		return false
	}
	return isFolder(c.here, e) || slices.ContainsFunc(c.endings, func(end string) bool { return strings.HasSuffix(name, end) })
}

// isFolder follows a link.
func isFolder(in string, e os.DirEntry) bool {
	if e.Type()&os.ModeSymlink == 0 {
		return e.IsDir()
	}
	info, err := os.Stat(filepath.Join(in, e.Name()))
	return err == nil && info.IsDir()
}
