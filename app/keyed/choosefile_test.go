package keyed

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// bench is a window whose keys go to its dialogs.
func bench(t *testing.T) *Dialogs {
	t.Helper()
	test.NewTempApp(t)
	win := test.NewTempWindow(t, widget.NewLabel(""))
	win.Resize(fyne.NewSize(900, 700))
	d := &Dialogs{Win: win}
	win.Canvas().SetOnTypedKey(d.Key)
	return d
}

// buttons are the texts of what can be pressed in the dialog on top.
func buttons(d *Dialogs) (list []*Button) {
	if top := d.Win.Canvas().Overlays().Top(); top != nil {
		for _, o := range test.LaidOutObjects(top) {
			if b, ok := o.(*Button); ok && b.Text != "" {
				list = append(list, b)
			}
		}
	}
	return list
}

func texts(d *Dialogs) (list []string) {
	for _, b := range buttons(d) {
		list = append(list, b.Text)
	}
	return list
}

func TestAFileIsFoundByKeyboard(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{"b.yaml", "A.YAML", "notes.txt", ".hidden.yaml", "shop/van.yaml", "shop/old/x.yaml"} {
		path := filepath.Join(folder, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, nil, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	d := bench(t)
	got := ""
	open := func() { d.ChooseFile("Open", folder, []string{".yaml"}, func(path string) { got = path }) }
	open()
	if want := []string{"shop", "A.YAML", "b.yaml", "Cancel"}; !slices.Equal(texts(d), want) {
		t.Fatalf("listed is %q, want %q", texts(d), want)
	}
	c := d.Win.Canvas()
	test.Type(c.Focused(), "sho")
	c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) // the one folder left
	if want := []string{"old", "van.yaml", "Cancel"}; !slices.Equal(texts(d), want) {
		t.Fatalf("in the folder %q, want %q", texts(d), want)
	}
	test.Type(c.Focused(), "VAN")
	c.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if want := filepath.Join(folder, "shop", "van.yaml"); got != want || c.Overlays().Top() != nil {
		t.Fatalf("chosen is %q, want %q", got, want)
	}
	open()
	for _, key := range []fyne.KeyName{fyne.KeyEscape} {
		c.FocusNext()
		c.Focused().TypedKey(&fyne.KeyEvent{Name: key})
	}
	if c.Overlays().Top() != nil || len(d.leaves) != 0 {
		t.Fatal("Esc does not leave")
	}
	d.ChooseFolder("Choose", folder, func(path string) { got = path })
	buttons(d)[0].OnTapped()
	for _, b := range buttons(d) {
		if b.Text == "Choose this folder" {
			b.OnTapped()
		}
	}
	if want := filepath.Join(folder, "shop"); got != want {
		t.Errorf("chosen is %q, want %q", got, want)
	}
}

// A choice has one option at all times, and the arrows go round.
func TestRadioGoesRoundByKeyboard(t *testing.T) {
	d := bench(t)
	var told []string
	r := NewRadio([]string{"mm", "in", "ft"}, func(s string) { told = append(told, s) })
	d.Win.SetContent(r)
	c := d.Win.Canvas()
	c.FocusNext()
	for _, key := range []fyne.KeyName{fyne.KeyRight, fyne.KeyRight, fyne.KeyRight, fyne.KeyLeft} {
		c.Focused().TypedKey(&fyne.KeyEvent{Name: key})
	}
	c.Focused().TypedRune(' ')
	if want := []string{"in", "ft", "mm", "ft"}; !slices.Equal(told, want) || r.Selected != "ft" {
		t.Errorf("told %q, want %q; chosen %q", told, want, r.Selected)
	}
}

// What a validator refuses is not taken, by button or Enter.
func TestAFormTakesWhatIsRight(t *testing.T) {
	d := bench(t)
	e := NewEntry("")
	e.Validator = func(text string) error {
		if text == "" {
			return os.ErrInvalid
		}
		return nil
	}
	taken := 0
	d.Form("Name", "Keep", "Leave", []*widget.FormItem{widget.NewFormItem("Name", e)}, 300, func() { taken++ })
	c := d.Win.Canvas()
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if taken != 0 || c.Overlays().Top() == nil {
		t.Fatal("an empty name is taken")
	}
	test.Type(e, "kim")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if taken != 1 || c.Overlays().Top() != nil {
		t.Fatalf("taken %d times", taken)
	}
}
