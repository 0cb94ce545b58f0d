package window

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"fyne.io/fyne/v2/widget"

	"armscribe/app/safefile"
	"armscribe/canvas"
	"armscribe/canvas/draw"
	"armscribe/canvas/raster"
	"armscribe/canvas/svg"
)

// pictureDPI of saved PNG files: sharp on paper.
const pictureDPI = 200

// curvesCSV is what the curves show, one row for each station, as RFC 4180.
func (w *Window) curvesCSV() string {
	var text strings.Builder
	out := csv.NewWriter(&text)
	out.UseCRLF = true
	axis := w.axisOf(w.curves.Over)
	head := []string{axis.Name}
	var columns []int
	for i, c := range w.curves.Curves {
		words, ok := wordsOf(c)
		if !ok || !words.existsOver(w.curves.Over) {
			continue
		}
		_, unit := scale(words.kind, w.unit)
		columns = append(columns, i)
		head = append(head, words.title+" "+unit)
	}
	rows := [][]string{head}
	if len(columns) > 0 {
		for n, at := range w.plots.now[columns[0]].At {
			row := []string{number(at / axis.PerUnit)}
			for _, i := range columns {
				words, _ := wordsOf(w.curves.Curves[i])
				perUnit, _ := scale(words.kind, w.unit)
				cell := ""
				if s := &w.plots.now[i]; s.OK[n] {
					cell = number(s.Value[n] / perUnit)
				}
				row = append(row, cell)
			}
			rows = append(rows, row)
		}
	}
	if err := out.WriteAll(rows); err != nil {
		panic("window: " + err.Error()) // a strings.Builder takes everything
	}
	return text.String()
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', 6, 64) }

func (w *Window) copyCurves() {
	w.app.Clipboard().SetContent(w.curvesCSV())
	w.say("The curves are on the clipboard as CSV, with commas.")
}

func (w *Window) saveCurves() {
	t := canvas.TitleBlock{Job: w.doc.Job().Name, Now: w.doc.Variant().Name}
	if v, ok := w.doc.Compared(); ok && w.frame.HasBefore {
		t.Before = v.Name
	}
	w.savePicture("curves", w.strips.SheetWith(t, 180*draw.PerMM, 120*draw.PerMM))
}

func (w *Window) saveView() {
	w.savePicture("front-view", w.view.Sheet(w.doc.Job().Name))
}

// savePicture asks for a name; its ending chooses PNG or SVG.
func (w *Window) savePicture(name string, sheet draw.Sheet) {
	entry := newKeyEntry(filepath.Join(w.folder(), name+".png"))
	form := []*widget.FormItem{widget.NewFormItem("File, .png or .svg", entry)}
	w.askText("Save a picture", "Save", "Not now", form, 640, func() {
		if err := writePicture(entry.Text, sheet); err != nil {
			w.showProblems("The picture is not saved", err)
			return
		}
		w.say("Saved " + entry.Text + ".")
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
