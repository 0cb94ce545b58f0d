package job

import (
	"fmt"
	"math"

	"gopkg.in/yaml.v3"

	"armscribe/app/units"
	"armscribe/kinematics"
)

// PlaceHub puts the hub face where a measured track has it, whatever the
// wheel's numbers are: what was measured stays, and the hub follows from it.
// Without a track the hub is what was measured, and nothing is done.
func (v *Variant) PlaceHub() {
	if !v.Track.Given {
		return
	}
	c := v.Corner()
	c.Hub.Y = 0 // from where it stood, rounding would depend on that
	setLength(&v.Hub.Y, v.Track.MM/2-c.RestContact().Y)
}

// TrackMM is the distance between both contacts at rest, as measured or as it
// follows from the hub.
func (v *Variant) TrackMM() float64 {
	if v.Track.Given {
		return v.Track.MM
	}
	c := v.Corner()
	return 2 * c.RestContact().Y
}

// holdTrack keeps a track that was measured, after a change from a former
// state: of the wheel, then the hub follows; of the hub, then it is the hub that
// is known.
func (v *Variant) holdTrack(former *Variant) {
	if v.Track.Given && v.Track == former.Track && v.Hub.Y.MM != former.Hub.Y.MM {
		v.Track = Optional{}
	}
	v.PlaceHub()
}

const (
	// hubDigit is to how much a hub that follows from a track is written, mm,
	// for readers of the file that know no track.
	hubDigit = 0.001
	// hubSlack is how far from that it may stand, mm.
	hubSlack = 0.01
)

// hubPlace is the hub face, whose y need not stand where a track is.
type hubPlace struct{ v *Variant }

func (h *hubPlace) fields() []field {
	list := h.v.Hub.fields()
	for i := range list {
		if list[i].key == "y" {
			list[i].must, list[i].codec = false, hubSideCodec{h.v, list[i].codec}
		}
	}
	return list
}

// hubSideCodec is the hub's y.
type hubSideCodec struct {
	v *Variant
	codec
}

func (c hubSideCodec) write(w *writer, old *yaml.Node) *yaml.Node {
	if !c.v.Track.Given {
		return c.codec.write(w, old)
	}
	if old != nil && old.Kind == yaml.ScalarNode {
		if was, err := units.ParseLength(old.Value, w.units); err == nil && math.Abs(was.MM-c.v.Hub.Y.MM) <= hubSlack {
			return w.scalar(old, old.Value, true)
		}
	}
	if _, hub := find(c.v.src, "hub"); hub != nil && old == nil {
		return nil // the file leaves it to the track
	}
	digit := hubDigit
	if w.units == units.Inch {
		digit = hubDigit / 10 / units.In(1, units.Inch)
	}
	return w.length(old, units.Length{MM: math.Round(c.v.Hub.Y.MM/digit) * digit})
}

// check settles what hangs on keys beside it.
func (v *Variant) check(r *reader, at string, _ int, has func(string) bool) {
	v.settleToe(r, at+".toe")
	v.checkHub(r, at, has)
}

// checkHub asks for the hub's y where no track says it, and refuses two that differ.
func (v *Variant) checkHub(r *reader, at string, has func(string) bool) {
	hub := at + ".hub"
	side, stands := r.lines[hub+".y"]
	for _, key := range []string{hub, at + ".track"} {
		if r.unread(key) || !has("hub") {
			return
		}
	}
	if !v.Track.Given {
		if !stands {
			r.missingKey(r.lineOf(hub), hub, &v.Hub, "y")
		}
		return
	}
	for _, key := range []string{".camber", ".toe", ".wheel"} {
		if r.unread(at + key) {
			return
		}
	}
	if !(v.Track.MM >= kinematics.MinSpan) {
		return // reported with the other values
	}
	stated := v.Hub.Y
	v.PlaceHub()
	if off := math.Abs(stated.MM - v.Hub.Y.MM); stands && !(off <= hubSlack) {
		r.add(side, hub+".y", valueOf(stated, r.units), fmt.Sprintf("is not where track = %s puts it, %s", valueOf(v.Track.Length, r.units), sizeOf(v.Hub.Y.MM, r.units)),
			"take hub.y out, and it follows from the track, or take the track out")
	}
}
