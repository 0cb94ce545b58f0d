package bumppage

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"armscribe/app/keyed"
	"armscribe/app/pages"
	"armscribe/app/room"
	"armscribe/app/tune"
	"armscribe/app/units"
	"armscribe/kinematics/bumpsteer"
)

// outcome shows what a cure comes to.
type outcome struct {
	c           *cure
	what, words *widget.Label
	moves       *pages.Grid
	keep        *keyed.Button
	content     *fyne.Container
}

func newOutcome(c *cure) *outcome {
	o := &outcome{c: c, what: pages.Prose(), words: pages.Prose(), moves: pages.NewGrid("lrrrrrl")}
	o.keep = keyed.NewButton("Keep as a variant", o.keepIt)
	o.keep.Importance = widget.HighImportance
	o.content = container.NewVBox(o.what, o.moves.Content, o.words)
	o.content.Hide()
	o.keep.Hide()
	return o
}

func (o *outcome) show() {
	r := o.c.result
	if r == nil {
		o.content.Hide()
		o.keep.Hide()
		return
	}
	p := o.c.p
	o.what.SetText(o.sentence())
	o.moves.Clear()
	u := p.setup.Unit.String()
	o.moves.Head("move, "+u, "from", "to", "by", p.setup.OffText()+" more", p.setup.OffText()+" less", "")
	for i := range r.Moves {
		m := &r.Moves[i]
		o.moves.Row(pages.Bold(p.setup.FreedomName(m.Free.Freedom)), pages.Plain(p.figure(m.From)), pages.Plain(p.figure(m.To)), pages.Bold(p.moveText(m)),
			pages.Plain(extraText(m.ExtraPlus, m.HasExtraPlus)), pages.Plain(extraText(m.ExtraMinus, m.HasExtraMinus)), pages.Plain(p.setup.MoveMarks(m, r)))
	}
	rod := pages.Pick(p.setup.Rear, "toe link", "tie rod")
	o.moves.Row(pages.Bold(rod), pages.Plain(p.figure(r.RodFrom)), pages.Plain(p.figure(r.RodTo)), pages.Plain(p.way(r.RodTo-r.RodFrom)), pages.Plain(""), pages.Plain(""), pages.Plain("cut to keep the toe"))
	o.moves.Done()
	o.words.SetText(o.left())
	o.content.Show()
	o.keep.Show()
	o.content.Refresh()
}

// moveText is a move with the band that the measuring error leaves.
func (p *Page) moveText(m *bumpsteer.Move) string {
	if m.Band == 0 {
		return p.way(m.By())
	}
	return units.Signed(p.lengthBand(bumpsteer.Banded{Value: m.By(), Half: m.Band}))
}

// extraText is what a building error adds, deg.
func extraText(rad float64, has bool) string {
	if !has {
		return "out of reach"
	}
	return toeText(rad) + "°"
}

func (o *outcome) sentence() string {
	r, g := o.c.result, &o.c.asked.Goal
	if g.Slope != 0 {
		return fmt.Sprintf("Largest distance from the wanted line: %s before, %s after.", sizeText(r.Before.Largest), sizeText(r.After.Largest))
	}
	text := fmt.Sprintf("Largest toe change: %s before, %s after.", sizeText(r.Before.Change), sizeText(r.After.Change))
	if w := o.c.p.across(); w != "" {
		text += fmt.Sprintf(" That is %s and %s %s %s.", o.c.p.rimText(r.Before.Change), o.c.p.rimText(r.After.Change), o.c.p.setup.Unit, w)
	}
	return text
}

// left says what is left and what building errors do.
func (o *outcome) left() string {
	r := o.c.result
	text := o.c.p.setup.CureWords(r) + " " + o.c.p.setup.OffText() + " more or less: what the largest distance grows by when the part is built so far off, the toe set again."
	for i := range r.Moves {
		if r.Moves[i].Free.Freedom == bumpsteer.OuterEndHeight && r.Moves[i].By() > 0 {
			text += " " + pages.UpperFirst(tune.SpacerHint)
		}
	}
	v := room.JudgementOf(o.c.p.host.Job(), o.c.p.host.Variant(), &r.Corner)
	if row := v.Row(o.c.p.setup.Unit); row != "" {
		text += "\n! Wheel with these moves: " + row + "."
	}
	if r.HasLeft {
		text += "\nWhat is left:\n" + partsWords(o.c.p.setup.Parts(&r.Left, tune.ByTape))
	}
	return text
}

func (o *outcome) keepIt() {
	r := o.c.result
	if r == nil {
		return
	}
	p := o.c.p
	notes := "Moved for the toe curve, from " + p.variant().Name + ":"
	for i := range r.Moves {
		notes += fmt.Sprintf(" %s %s %s;", p.setup.FreedomName(r.Moves[i].Free.Freedom), p.way(r.Moves[i].By()), p.setup.Unit)
	}
	notes += fmt.Sprintf(" %s %s from end to end.", pages.Pick(p.setup.Rear, "toe link", "tie rod"), p.length(r.RodTo))
	p.keep(o.c.note, "cured", notes, r.Corner, nil)
}
