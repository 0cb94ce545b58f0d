package window

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
)

// playTime is one run from rest through bump and droop and back.
const playTime = 5 * time.Second

// togglePlay starts or stops the run through the travel.
func (w *Window) togglePlay() {
	if w.playing != nil {
		w.stopPlay()
		return
	}
	from := w.frame.Position.Travel
	w.playing = fyne.NewAnimation(playTime, func(f float32) { w.setTravel(w.playAt(float64(f), from)) })
	w.playing.Curve = fyne.AnimationLinear
	w.playing.RepeatCount = fyne.AnimationRepeatForever
	w.playing.Start()
	w.playButton.SetText("Stop")
}

// playAt is the travel at a part of the run; it starts where the wheel stands.
func (w *Window) playAt(f, from float64) float64 {
	s := &w.frame.Now.Study
	end := s.To
	if from < 0 {
		end = -s.From
	}
	phase := math.Asin(clamp(from/max(1, end), -1, 1))
	x := math.Sin(2*math.Pi*f + phase)
	if x < 0 {
		return -x * s.From
	}
	return x * s.To
}

func (w *Window) stopPlay() {
	if w.playing == nil {
		return
	}
	w.playing.Stop()
	w.playing = nil
	w.playButton.SetText("Play")
	w.steady()
}

func clamp(v, lo, hi float64) float64 { return max(lo, min(v, hi)) }
