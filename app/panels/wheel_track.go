package panels

import (
	"strings"

	"armscribe/app/job"
	"armscribe/app/sheet"
	"armscribe/app/units"
)

// trackField is the field of the track. What is typed was measured, and the hub
// follows from it; an empty one makes the hub what is known.
func (w *Wheel) trackField() *field {
	f := newField("track")
	f.check = func(text string) (string, error) {
		if strings.TrimSpace(text) == "" {
			return "follows from the hub", nil
		}
		return echoLength(text, w.in.Unit)
	}
	f.hand = func(text string) error {
		if strings.TrimSpace(text) == "" {
			return w.OnEdit("drop track", func(v *job.Variant) { v.Track = job.Optional{} })
		}
		l, err := units.ParseLength(text, w.in.Unit)
		if err != nil {
			return err
		}
		return w.OnEdit("type "+f.name, func(v *job.Variant) { v.Track = job.Given(l) })
	}
	return f
}

func (w *Wheel) fillTrack(owner string) {
	v := w.in.Variant
	if v.Track.Given {
		short, full := lengthTexts(v.Track.Length, w.in.Unit)
		w.track.field.hold(owner, short, full)
		w.track.field.SetPlaceHolder("")
		w.track.explainWith("between the contacts, as typed; the hub follows")
		return
	}
	w.track.field.hold(owner, "", "")
	w.track.field.SetPlaceHolder(units.Trimmed(units.In(v.TrackMM(), w.in.Unit), scaleOfKind(sheet.Length, w.in.Unit).plain))
	w.track.explainWith("follows from the hub; typed, the hub follows")
}
