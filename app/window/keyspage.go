package window

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/look"
)

// keyGroup is a heading of the keys page with its rows: keys and what they do.
type keyGroup struct {
	heading string
	rows    [][2]string
}

var allKeys = []keyGroup{
	{"In the view", [][2]string{
		{"Drag", "move a point, the upright, the wheel, the ground line or an obstacle"},
		{"Shift", "hold the nearer axis"},
		{"Ctrl or Alt", "no snapping"},
		{"Esc", "put it back"},
		{"Tab, Shift+Tab", "walk the points"},
		{"Arrows", "nudge 1 mm (1/32 in); Shift ten times, Ctrl a tenth"},
		{"Enter", "type the coordinates, or how far the upright goes"},
		{"M, then click", "move the picked point to where you click"},
		{"Right button", "type its place, hold its height, its side distance or a length, or the upright"},
		{"Click on the loupe", "which end of the tie rod to move"},
		{"Wheel", "zoom"},
		{"Middle drag, Space and drag", "pan"},
	}},
	{"On a bar or the curves", [][2]string{
		{"Up, Down, Left, Right", "1 mm; Shift ten times, Ctrl a tenth"},
		{"Home", "back to rest"},
		{"Page Up, Page Down", "to the ends"},
		{"Right button", "which curves, over what, or the change from before"},
		{"Left, Right", "on the edge beside the curves: a wider or narrower answer; Home its own width"},
	}},
	{"The job", [][2]string{
		{"Ctrl+J", "new job"},
		{"Ctrl+O", "open"},
		{"Ctrl+S", "save"},
		{"Ctrl+Shift+S", "save as"},
		{"Ctrl+Z", "undo"},
		{"Ctrl+Y, Ctrl+Shift+Z", "redo"},
		{"Ctrl+N", "new variant"},
		{"Ctrl+E", "swap with the variant compared"},
		{"Ctrl+Shift+E", "all variants side by side"},
		{"Ctrl+Q", "quit"},
	}},
	{"What is shown", [][2]string{
		{"Ctrl+1, Ctrl+2, Ctrl+3, Ctrl+4, Ctrl+5, Ctrl+6, Ctrl+7, Ctrl+8", "the steps of the card, from the top"},
		{"Ctrl+Page Down, Ctrl+Page Up", "the tabs of the answer"},
		{"Ctrl+G", "clearance"},
		{"Ctrl+P", "play through the travel"},
		{"Ctrl+R", "back to rest"},
		{"Ctrl+0", "fit the view"},
		{"Ctrl+plus, Ctrl+minus", "zoom"},
	}},
	{"Everywhere", [][2]string{
		{"Alt, F10", "the menus"},
		{"Alt+F, E, V, A, H", "one of them"},
		{"Ctrl+H", "this page"},
		{"Enter", "go on in a dialog"},
		{"Esc", "leave it"},
	}},
}

// keysFor are the groups with the rows that have all words of what is sought.
func keysFor(sought string) (found []keyGroup) {
	words := strings.Fields(strings.ToLower(sought))
	for _, g := range allKeys {
		kept := keyGroup{heading: g.heading}
		for _, row := range g.rows {
			text, all := strings.ToLower(g.heading+" "+row[0]+" "+row[1]), true
			for _, word := range words {
				all = all && strings.Contains(text, word)
			}
			if all {
				kept.rows = append(kept.rows, row)
			}
		}
		if len(kept.rows) > 0 {
			found = append(found, kept)
		}
	}
	return found
}

// Widths of the keys page, points.
const (
	keysWide = 760
	keysHigh = 560
)

// showShortcuts opens the page of keys, with the keyboard in its search.
func (w *Window) showShortcuts() {
	columns := container.NewGridWithColumns(2)
	fill := func(sought string) {
		columns.Objects = keyColumns(keysFor(sought))
		columns.Refresh()
	}
	search := keyed.NewEntry("")
	search.PlaceHolder = "Search keys and what they do"
	search.OnChanged = fill
	fill("")
	var open *dialog.CustomDialog
	button := keyed.NewButton("Close", func() { open.Hide() })
	open = w.dialogs.Open(keyed.Dialog{Title: "Keys and gestures", Size: fyne.NewSize(keysWide, keysHigh),
		Content: container.NewBorder(search, nil, nil, nil, container.NewVScroll(columns)),
		Buttons: []*keyed.Button{button}, Focus: search})
}

// keyColumns puts groups into two columns about as long as each other.
func keyColumns(groups []keyGroup) []fyne.CanvasObject {
	if len(groups) == 0 {
		return []fyne.CanvasObject{widget.NewLabel("No key does that.")}
	}
	rows := 0
	for _, g := range groups {
		rows += len(g.rows) + 1
	}
	tight := layout.NewCustomPaddedVBoxLayout(-look.Step) // the rows have air of their own
	columns := [2]*fyne.Container{container.New(tight), container.New(tight)}
	done := 0
	for _, g := range groups {
		to := columns[0]
		if 2*done >= rows {
			to = columns[1]
		}
		heading := widget.NewLabel(g.heading)
		heading.TextStyle.Bold = true
		to.Add(heading)
		for _, row := range g.rows {
			to.Add(keyRow(row))
		}
		done += len(g.rows) + 1
	}
	return []fyne.CanvasObject{columns[0], columns[1]}
}

// keyRow has the keys over what they do, which may take several lines.
func keyRow(row [2]string) fyne.CanvasObject {
	text := widget.NewRichText(
		&widget.TextSegment{Text: row[0] + "  ", Style: widget.RichTextStyle{Inline: true, ColorName: look.ColorBefore}},
		&widget.TextSegment{Text: row[1], Style: widget.RichTextStyle{Inline: true}})
	text.Wrapping = fyne.TextWrapWord
	return text
}
