package window

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"armscribe/app/frame"
	"armscribe/app/units"
	"armscribe/assets"
	"armscribe/canvas/scene"
)

// overlayNames are the overlays as the View menu has them.
var overlayNames = []struct {
	overlay scene.Overlays
	name    string
}{
	{scene.ArmLines, "Arm lines and instant centre"},
	{scene.RollCentre, "Roll centre"},
	{scene.ScrubAxis, "Steering axis and scrub radius"},
	{scene.TieRodArcs, "Tie-rod arcs and loupe"},
	{scene.IdealRackEnd, "Ideal rack end"},
	{scene.TravelGhosts, "Bump and droop positions"},
	{scene.BeforeOutline, "Compared variant"},
	{scene.ErrorMarks, "Measuring-error marks"},
	{scene.OtherSide, "Other side of the car"},
	{scene.Clearance, "Clearance: swept tyre and obstacles"},
}

func item(name string, action func(), s fyne.Shortcut) *fyne.MenuItem {
	i := fyne.NewMenuItem(name, action)
	i.Shortcut = s
	return i
}

func ctrl(k fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierShortcutDefault}
}

func ctrlShift(k fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift}
}

func checked(name string, on bool, action func()) *fyne.MenuItem {
	i := fyne.NewMenuItem(name, action)
	i.Checked = on
	return i
}

// showMenus makes the menus anew: names of undo, ticks and recent files change.
func (w *Window) showMenus() {
	state := w.menuState()
	if state == w.menus {
		return
	}
	w.menus = state
	menus := []*fyne.Menu{w.fileMenu(), w.editMenu(), w.viewMenu(), w.variantMenu(), w.helpMenu()}
	help := menus[len(menus)-1]
	help.Items = append(help.Items, w.menusByKey(menus))
	menu := fyne.NewMainMenu(menus...)
	for _, m := range menu.Items {
		w.unlessAsked(m)
	}
	w.win.SetMainMenu(menu)
}

// unlessAsked keeps a menu from acting behind an open dialog: its shortcuts are
// heard there too, and what is asked would not be what is answered.
func (w *Window) unlessAsked(m *fyne.Menu) {
	for _, i := range m.Items {
		if i.ChildMenu != nil {
			w.unlessAsked(i.ChildMenu)
		}
		if action := i.Action; action != nil {
			i.Action = func() {
				if !w.asks() {
					action()
				}
			}
		}
	}
}

// asks tells whether a dialog waits for an answer.
func (w *Window) asks() bool {
	return w.win.Canvas().Overlays().Top() != nil
}

// menuState is everything that the menus say.
type menuState struct {
	undo, redo                  string
	unit                        units.Unit
	dark                        bool
	overlays                    scene.Overlays
	foldCard                    fold
	step                        step
	over                        frame.Over
	curves, recent, job, shown  string
	hasFile                     bool
	hasBefore, playing, hasRack bool
	variants                    string
	change                      bool
}

func (w *Window) fileMenu() *fyne.Menu {
	recent := fyne.NewMenuItem("Open recent", nil)
	recent.ChildMenu = fyne.NewMenu("")
	for _, path := range w.recentFiles {
		recent.ChildMenu.Items = append(recent.ChildMenu.Items,
			fyne.NewMenuItem(filepath.Base(path)+" in "+filepath.Dir(path), func() { w.openPath(path) }))
	}
	recent.Disabled = len(recent.ChildMenu.Items) == 0
	reload := fyne.NewMenuItem("Reload from disk", w.reload)
	reload.Disabled = w.doc.Path() == ""
	demo := fyne.NewMenuItem("Open a demo job", nil)
	demo.ChildMenu = fyne.NewMenu("")
	for _, name := range assets.DemoNames() {
		demo.ChildMenu.Items = append(demo.ChildMenu.Items, fyne.NewMenuItem(demoTitle(name), func() { w.openDemo(name) }))
	}
	return fyne.NewMenu("File",
		item("New job…", w.askNewJob, ctrl(fyne.KeyJ)),
		fyne.NewMenuItem("New job from a photo…", w.askNewFromPhoto),
		item("Open…", w.askOpen, ctrl(fyne.KeyO)), recent, demo, fyne.NewMenuItemSeparator(),
		item("Save", func() { w.save(nil) }, ctrl(fyne.KeyS)),
		item("Save as…", func() { w.saveAs(nil) }, ctrlShift(fyne.KeyS)),
		reload, fyne.NewMenuItem("Discarded work…", w.showDiscarded),
		fyne.NewMenuItemSeparator(),
		fyne.NewMenuItem("Copy curves as CSV", w.copyCurves),
		fyne.NewMenuItem("Save curves as a picture…", w.saveCurves),
		fyne.NewMenuItem("Save the view as a picture…", w.saveView),
		fyne.NewMenuItemSeparator(),
		quitItem(w.close))
}

// demoTitle is a demo's name as a person reads it.
func demoTitle(name string) string {
	if title, ok := demoTitles[name]; ok {
		return title
	}
	return name
}

var demoTitles = map[string]string{
	"flat-teaching": "Equal parallel arms, to learn on",
	"rear-toe-link": "A rear axle with a toe link, in inches",
	"gravel-estate": "An estate car made ready for gravel roads",
}

func quitItem(action func()) *fyne.MenuItem {
	q := item("Quit", action, ctrl(fyne.KeyQ))
	q.IsQuit = true
	return q
}

func (w *Window) editMenu() *fyne.Menu {
	undo := item(named("Undo", w.doc.UndoName()), w.undo, &fyne.ShortcutUndo{})
	redo := item(named("Redo", w.doc.RedoName()), w.redo, &fyne.ShortcutRedo{})
	undo.Disabled, redo.Disabled = w.doc.UndoName() == "", w.doc.RedoName() == ""
	return fyne.NewMenu("Edit", undo, redo)
}

// named says what undo would undo: 'Undo move lower ball joint'.
func named(verb, gesture string) string {
	if gesture == "" {
		return verb
	}
	return verb + " " + gesture
}

func (w *Window) viewMenu() *fyne.Menu {
	m := fyne.NewMenu("View",
		w.stepMenu(), fyne.NewMenuItemSeparator(),
		item("Fit", w.view.Fit, ctrl(fyne.Key0)),
		item("Zoom in", w.view.ZoomIn, ctrl(fyne.KeyEqual)),
		item("Zoom out", w.view.ZoomOut, ctrl(fyne.KeyMinus)),
		item(w.playWord(), w.togglePlay, ctrl(fyne.KeyP)),
		item("Back to rest", w.rest, ctrl(fyne.KeyR)),
		fyne.NewMenuItemSeparator())
	for _, o := range overlayNames {
		i := checked(o.name, w.overlays&o.overlay != 0, func() { w.toggleOverlay(o.overlay) })
		if o.overlay == scene.Clearance {
			i.Shortcut = ctrl(fyne.KeyG)
		}
		m.Items = append(m.Items, i)
	}
	size := w.win.Canvas().Size().Width
	return fyne.NewMenu(m.Label, append(m.Items, fyne.NewMenuItemSeparator(),
		w.curveMenu(), fyne.NewMenuItemSeparator(),
		checked("The card's words", !w.cardFolded(size), w.toggleCard),
		checked("Millimetres", w.unit == units.Millimetre, func() { w.setUnit(units.Millimetre) }),
		checked("Inches", w.unit == units.Inch, func() { w.setUnit(units.Inch) }),
		checked("Dark", w.dark, func() { w.setDark(!w.dark) }))...)
}

// curveMenu chooses the curves and what they run over.
func (w *Window) curveMenu() *fyne.MenuItem {
	top := fyne.NewMenuItem("Curves", nil)
	top.ChildMenu = fyne.NewMenu("", w.curveItems()...)
	return top
}

func (w *Window) curveItems() []*fyne.MenuItem {
	items := []*fyne.MenuItem{checked("Over travel", w.curves.Over == frame.OverTravel, func() { w.setOver(frame.OverTravel) })}
	if w.hasRack() {
		items = append(items, checked("Over rack", w.curves.Over == frame.OverRack, func() { w.setOver(frame.OverRack) }))
	}
	items = append(items, checked("Over roll", w.curves.Over == frame.OverRoll, func() { w.setOver(frame.OverRoll) }),
		fyne.NewMenuItemSeparator())
	for _, c := range allCurves {
		if c.existsOver(w.curves.Over) {
			items = append(items, checked(c.Curve.Title, w.curves.has(c.curve), func() { w.toggleCurve(c.curve) }))
		}
	}
	return append(items, fyne.NewMenuItemSeparator(), checked("Change from before, instead of both", w.curves.Change, w.toggleChange))
}

func (c curveChoice) has(curve frame.Curve) bool {
	for _, x := range c.Curves {
		if x == curve {
			return true
		}
	}
	return false
}

func (w *Window) playWord() string {
	if w.playing != nil {
		return "Stop"
	}
	return "Play through the travel"
}

// stepMenu chooses the steps of the card by keys: Ctrl with the step's number.
func (w *Window) stepMenu() *fyne.MenuItem {
	top := fyne.NewMenuItem("Steps of the card", nil)
	top.ChildMenu = fyne.NewMenu("")
	for s := range stepCount {
		i := checked(s.String(), s == w.answer.step, func() { w.choose(s) })
		i.Shortcut = ctrl(stepKeys[s])
		top.ChildMenu.Items = append(top.ChildMenu.Items, i)
	}
	top.ChildMenu.Items = append(top.ChildMenu.Items, fyne.NewMenuItemSeparator(),
		item("Next tab of the answer", func() { w.book().Turn(1) }, ctrl(fyne.KeyPageDown)),
		item("Tab before", func() { w.book().Turn(-1) }, ctrl(fyne.KeyPageUp)))
	return top
}

var stepKeys = [stepCount]fyne.KeyName{fyne.Key1, fyne.Key2, fyne.Key3, fyne.Key4, fyne.Key5, fyne.Key6, fyne.Key7, fyne.Key8}

func (w *Window) helpMenu() *fyne.Menu {
	return fyne.NewMenu("Help",
		item("Keys and gestures", w.showShortcuts, ctrl(fyne.KeyH)),
		fyne.NewMenuItem("About and cautions", w.showAbout))
}
