// Package trackpage has the answers on wheels and track: what follows from a tyre
// and a wheel, both ways of widening the track beside the measured corner, the
// ways to a wished track, longer arms on the same upright, and what it all does to
// lock, effort and joints. It holds
// no job: it asks its host for one and hands changes back.
package trackpage

import (
	"strings"

	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/app/units"
)

// Host is the window that the page stands in, and what this page asks of it
// besides.
type Host struct {
	pages.Host
	// Add appends variants to the job in one edit under a name for Undo, beside
	// the variant that they came from. One alone is shown. What is refused
	// changes nothing.
	Add func(name string, from int, list []job.Variant) error
}

// Page has the sections on wheels, track, arms and what comes of them. All its
// methods belong to the toolkit's goroutine.
type Page struct {
	host Host

	facts  *facts
	lock   *lock
	effort *effort
	joints *joints
	arms   *arms
	ways   *ways
	reach  *reach
}

// New makes the page; each section's Show fills it.
func New(h Host) *Page {
	p := &Page{host: h}
	p.facts, p.ways, p.reach = newFacts(p), newWays(p), newReach(p)
	p.lock, p.effort, p.joints = newLock(p), newEffort(p), newJoints(p)
	p.arms = newArms(p)
	return p
}

// Fit are the sections on wheel, tyre and track.
func (p *Page) Fit() []pages.Section { return []pages.Section{p.facts, p.ways, p.reach} }

// Arms are those on the arms' lengths.
func (p *Page) Arms() []pages.Section { return []pages.Section{p.arms} }

// Check are those on what the corner does to lock, forces and joints.
func (p *Page) Check() []pages.Section { return []pages.Section{p.lock, p.effort, p.joints} }

func (p *Page) unit() units.Unit { return p.host.Unit() }

// plainNumbers says what a number without a unit is.
func plainNumbers(unit units.Unit) string {
	return pages.Pick(unit == units.Inch, "Plain numbers are inches; 10 1/2, 57 mm and 57mm + 1/8in are read too.", "Plain numbers are mm; 10 1/2 in and 57mm + 1/8in are read too.")
}

// add appends variants that came from one, and says so, or why not.
func (p *Page) add(to *pages.Notice, from int, list ...job.Variant) bool {
	j := p.host.Job()
	names := make([]string, len(list))
	for i := range list {
		list[i].Name = j.FreeName(list[i].Name)
		names[i] = list[i].Name
	}
	before := len(j.Variants)
	if err := p.host.Add("add "+strings.Join(names, " and "), from, list); err != nil {
		to.Wrong("This cannot be kept: ", err)
		return false
	}
	kept := p.host.Job().Names()[before:]
	if len(kept) == 1 {
		to.Say("Kept as “" + kept[0] + "”, which is now shown.")
	} else {
		to.Say("Kept as “" + strings.Join(kept, "” and “") + "”.")
	}
	return true
}
