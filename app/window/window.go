// Package window is the window: the card of the work on the left, then the front
// view, the travel bar with the curves, and the answer of the step that is chosen. It turns what hands do into edits of a document and shows the answer
// in the same frame.
package window

import (
	"io"
	"os"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	fynecanvas "fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/car"
	"armscribe/app/document"
	"armscribe/app/frame"
	"armscribe/app/job"
	"armscribe/app/keyed"
	"armscribe/app/look"
	"armscribe/app/panels"
	"armscribe/app/units"
	"armscribe/canvas"
	"armscribe/canvas/draw"
	"armscribe/canvas/scene"
	"armscribe/kinematics"
	"armscribe/kinematics/study"
)

// Window is one window on one job. All its methods belong to the toolkit's
// goroutine.
type Window struct {
	app     fyne.App
	win     fyne.Window
	prefs   prefs
	dialogs keyed.Dialogs

	doc      *document.Document
	frame    frame.Frame
	advice   frame.Advice
	drawn    kinematics.Corner // as the view was last saved as a picture
	position frame.Position
	sections sectionCache

	unit     units.Unit
	dark     bool
	overlays scene.Overlays
	passing  string // in the status line, true until the next act
	curves   curveChoice
	lit      scene.Overlays
	plots    plots
	// stripsShown is how many strips the window has room for.
	stripsShown int
	standing    standing

	foldCard fold
	playing  *fyne.Animation
	menus    menuState
	answer   answers

	view             *canvas.FrontView
	strips           *canvas.Strips
	rackBar, rollBar *canvas.Bar
	bars             barsShown
	readings         *panels.Readings
	points           *panels.Points
	wheel            *panels.Wheel
	card             *panels.Card
	car, spring      *panels.Car
	top              *topBar
	adviceLine       *adviceLine
	assumedNext      job.Value // where the card's line about assumed values goes on
	photo            *photoSide
	room             *roomSide
	status           *widget.Label
	notices          notices
	playButton       *hintButton
	body             *fyne.Container
	backs            []*fynecanvas.Rectangle // under the columns, in the palette's colours

	painted     atomic.Bool   // a first picture has come
	firstAfter  time.Duration // and this long after the program's start
	kept        keeping
	recentFiles []string
	diskState   document.DiskState
	stateFile   string // see Main's -state
	stateAgain  func() bool
	stderr      io.Writer
}

// New makes the window of a document; Show or run opens it.
func New(a fyne.App, d *document.Document) *Window {
	w := &Window{app: a, prefs: prefs{a.Preferences()}, stderr: os.Stderr}
	w.dark, w.overlays, w.curves = w.prefs.dark(), w.prefs.overlays(), w.prefs.curves(atAGlance)
	a.Settings().SetTheme(themeOf(w.dark))
	w.win = a.NewWindow("Armscribe")
	w.dialogs.Win = w.win
	w.makeParts()
	w.win.SetContent(w.layOut())
	w.win.SetPadded(false)
	w.win.Resize(w.prefs.size())
	w.win.SetCloseIntercept(w.close)
	w.win.Canvas().SetOnTypedKey(w.dialogs.Key)
	w.win.SetOnDropped(func(_ fyne.Position, files []fyne.URI) {
		if len(files) > 0 {
			w.openPath(files[0].Path())
		}
	})
	w.view.OnPainted = w.firstPicture
	w.paint()
	w.room.stand()
	w.startKeeping()
	w.recentFiles = w.recent()
	w.use(d)
	return w
}

// started is when the program began, or nearly.
var started = time.Now()

// firstPicture lets the guard of Main know that the display works.
func (w *Window) firstPicture() {
	w.painted.Store(true)
	w.firstAfter = time.Since(started)
	w.view.OnPainted = nil
	w.writeState()
}

// use shows another document.
func (w *Window) use(d *document.Document) {
	w.say("") // what stood there was about another job
	w.stopPlay()
	w.cancelHand()
	w.photo.forget()
	w.room.forget()
	w.doc, w.position = d, frame.Position{}
	w.diskState = document.SameOnDisk
	w.keepFor(d)
	w.unit = w.prefs.displayUnit(d.Job().Units)
	w.makeAnswers()
	w.refresh()
	w.view.Fit()
	if d.Job().Invented {
		w.say(inventedLine)
	}
}

func (w *Window) openDemo(name string) {
	w.keepOrLose("open another job", func() {
		d, err := openDemo(name)
		if err != nil {
			w.showProblems("The demo job does not open", err)
			return
		}
		w.use(d)
	})
}

// inventedLine stands under a job that says so of itself.
const inventedLine = "An example: the car and every number in it are invented."

// run opens the window and returns when it is closed.
func (w *Window) run() {
	w.showCautionsOnce()
	w.offerRecovery()
	w.watchDisk()
	w.win.ShowAndRun()
}

// close asks about unsaved changes, remembers the window's size and ends.
func (w *Window) close() {
	w.keepOrLose("close", func() {
		w.prefs.setSize(w.win.Canvas().Size())
		w.stopPlay()
		w.endKeeping()
		w.win.SetCloseIntercept(nil)
		w.win.Close()
	})
}

// makeParts makes every widget and says what its callbacks do.
func (w *Window) makeParts() {
	w.makeView()
	w.strips = canvas.NewStrips(canvas.Axis{Name: "travel", Min: -1, Max: 1})
	w.strips.OnValue, w.strips.OnEnded = w.setOverValue, w.settle
	w.strips.OnMenu = func(at fyne.Position, _ int) {
		menu := widget.NewPopUpMenu(fyne.NewMenu("", w.curveItems()...), w.win.Canvas())
		// As high as it must be to stand in the window whole.
		at.Y = max(0, min(at.Y, w.win.Canvas().Size().Height-menu.MinSize().Height-look.Step))
		menu.ShowAtPosition(at)
	}
	w.rackBar = canvas.NewBar(canvas.Axis{Name: "rack", Min: -1, Max: 1})
	w.rackBar.OnValue, w.rackBar.OnEnded = w.setRack, w.settle
	w.rollBar = canvas.NewBar(canvas.Axis{Name: "roll", Min: -1, Max: 1})
	w.rollBar.OnValue, w.rollBar.OnEnded = w.setRoll, w.settle
	w.makePanels()
	w.photo = newPhotoSide(w)
	w.room = newRoomSide(w)
	w.makeAnswerParts()
	w.top = newTopBar(w)
	w.adviceLine = newAdviceLine(w)
	w.status = widget.NewLabel("")
	w.status.Truncation = fyne.TextTruncateEllipsis
	w.playButton = w.button("Play", "Run through bump and droop, over and over. Ctrl+P", w.togglePlay)
}

func (w *Window) makePanels() {
	w.readings = w.newReadings()
	w.card = w.newCard()
	w.points = panels.NewPoints()
	w.points.OnEdit = w.editUnlocked
	w.wheel = panels.NewWheel()
	w.wheel.OnEdit = w.editUnlocked
	w.car, w.spring = w.newCar(panels.NewCar()), w.newCar(panels.NewSpring())
}

// newReadings makes a table of readings that lights the view.
func (w *Window) newReadings() *panels.Readings {
	r := panels.NewReadings()
	r.OnLit = func(lights scene.Overlays) {
		w.lit = lights
		w.showView()
	}
	r.OnSentence = w.say
	return r
}

func (w *Window) hasRack() bool {
	r := w.doc.Job().Rack
	return r.Left.MM+r.Right.MM > 0
}

// layOut puts the parts together.
func (w *Window) layOut() fyne.CanvasObject {
	back := func(o fyne.CanvasObject) fyne.CanvasObject {
		r := fynecanvas.NewRectangle(look.Current()[draw.Panel])
		w.backs = append(w.backs, r)
		return container.NewStack(r, o)
	}
	w.body = container.New(&columns{w}, back(w.card), w.room.withPlan(w.view), w.strips, back(container.NewBorder(nil, w.answer.brief, nil, nil, w.answer.shown)), w.underView(), w.adviceLine, newSplitter(w))
	caution := widget.NewLabel(cautionLine)
	bottom := container.NewBorder(w.notices.make(w.win), nil, nil, caution, w.status)
	return container.NewBorder(w.top, bottom, nil, nil, w.body)
}

// underView is what stands under the view: bars and buttons.
func (w *Window) underView() fyne.CanvasObject {
	zoom := container.NewHBox(
		w.button("Fit", "Show the whole corner. Ctrl+0", w.view.Fit),
		w.button("−", "Zoom out. Ctrl+minus, or the wheel", w.view.ZoomOut),
		w.button("+", "Zoom in. Ctrl+plus, or the wheel", w.view.ZoomIn))
	buttons := container.NewVBox(w.playButton, zoom)
	bars := container.NewGridWithRows(2, w.rackBar, w.rollBar)
	return container.New(layout.NewCustomPaddedLayout(look.Step, 0, 2*look.Step, look.Step),
		container.NewBorder(nil, nil, nil, buttons, bars))
}

// documentCase is the variant shown, as the document has it.
func (w *Window) documentCase() study.Case { return car.StudyOf(w.doc.Job(), w.doc.Variant()) }
