package window

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/frame"
	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/report"
	"armscribe/app/safefile"
	"armscribe/canvas"
	"armscribe/canvas/draw"
	"armscribe/canvas/raster"
	"armscribe/canvas/svg"
)

// pictureDPI of saved PNG files: sharp on paper.
const pictureDPI = 200

// curvesCSV is the sweep of the variant shown over what the curves run over, as
// armcalc sweep prints it.
func (w *Window) curvesCSV() (string, error) {
	axis := w.axisOf(w.curves.Over)
	spec := report.Spec{From: axis.Max, To: axis.Min, Step: report.DefaultStep(w.doc.Job().Units), Rack: w.position.Rack}
	drawn := &w.plots.now[0]
	for n, ok := range drawn.OK { // not where a link binds
		if ok {
			spec.From, spec.To = min(spec.From, drawn.At[n]), max(spec.To, drawn.At[n])
		}
	}
	if spec.From > spec.To {
		spec.From, spec.To = axis.Min, axis.Max // which says what binds
	}
	switch w.curves.Over {
	case frame.OverRack:
		spec.Over, spec.Rack, spec.Travel = report.OverRack, 0, w.position.Travel
	case frame.OverRoll:
		spec.Over, spec.Step = report.OverRoll, report.DefaultRollStep
	}
	sweep, err := report.SweepOf(report.SourceOf(w.doc.Job(), w.doc.Current()), spec)
	if err != nil {
		return "", err
	}
	return sweep.Sheet().CSV(), nil
}

func (w *Window) copyCurves() {
	text, err := w.curvesCSV()
	if err != nil {
		w.showProblems("The curves cannot be copied", err)
		return
	}
	w.app.Clipboard().SetContent(text)
	w.say(w.doc.Variant().Name + " is on the clipboard as CSV with commas, in mm and degrees, with all readings and their 95 % bands.")
}

func (w *Window) saveCurves() {
	t := canvas.TitleBlock{Job: w.doc.Job().Title(), Now: w.doc.Variant().Name}
	if v, _ := w.compared(); v != nil && w.frame.HasBefore {
		t.Before = v.Name
	}
	w.savePicture("curves", w.strips.SheetWith(t, 180*draw.PerMM, 120*draw.PerMM), func() {})
}

func (w *Window) saveView() {
	corner := w.doc.Variant().Corner()
	w.savePicture("front-view", w.view.Sheet(w.doc.Job().Title()), func() {
		w.drawn = corner
		w.showCard()
	})
}

// savePicture asks for a name; its ending chooses PNG or SVG. then is called once it
// is saved.
func (w *Window) savePicture(name string, sheet draw.Sheet, then func()) {
	entry := keyed.NewEntry(filepath.Join(w.folder(), name+".png"))
	form := []*widget.FormItem{widget.NewFormItem("File, .png or .svg", entry)}
	w.dialogs.Form("Save a picture", "Save", "Not now", form, 640, func() {
		if err := writePicture(entry.Text, sheet); err != nil {
			w.showProblems("The picture is not saved", err)
			return
		}
		w.say("Saved " + entry.Text + ".")
		then()
	})
}

// writePicture writes a sheet as the file's ending says.
func writePicture(path string, sheet draw.Sheet) error {
	var write func(io.Writer) error
	switch strings.ToLower(filepath.Ext(path)) {
	case ".png":
		write = func(out io.Writer) error { return raster.WritePNG(out, sheet, pictureDPI) }
	case ".svg":
		write = func(out io.Writer) error { return svg.Write(out, sheet) }
	default:
		return fmt.Errorf("%s: the ending must be .png or .svg", filepath.Base(path))
	}
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	if _, err := os.Stat(path); err == nil {
		return fmt.Errorf("%s exists already: choose another name", path)
	}
	return safefile.Write(safefile.Disk{}, path, b.Bytes(), nil)
}

// papers is what can be handed over as a file.
func (w *Window) papers() fyne.CanvasObject {
	return container.NewVBox(pages.Flow(
		w.button("Save the view as a picture…", "PNG or SVG, with a title block", w.saveView),
		w.button("Save curves as a picture…", "PNG or SVG, with a title block", w.saveCurves),
		w.button("Copy curves as CSV", "All readings over travel, with their bands", w.copyCurves),
		w.button("Save the job", "Ctrl+S", func() { w.save(nil) })),
		pages.Hint("Templates and cut lists are not among them yet."))
}
