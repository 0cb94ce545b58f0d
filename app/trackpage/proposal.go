package trackpage

import (
	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/report"
)

// Proposal is the corner on longer arms.
func (a *arms) Proposal() *job.Variant {
	if a.now == nil {
		return nil
	}
	v := a.p.host.Shown().Proposal("arms so long")
	document.SetCorner(&v, a.now.Corner)
	return &v
}

// Proposal is the variant on the wheel that is typed.
func (f *facts) Proposal() *job.Variant {
	spec, err := f.spec()
	if !f.typed || f.stale || err != nil {
		return nil
	}
	v := f.p.host.Shown().Proposal("on this wheel")
	v.Wheel = f.wheel(&spec)
	return &v
}

// Proposal is the way by longer arms: that by spacers moves the wheel alone.
func (w *ways) Proposal() *job.Variant {
	if w.answer == nil || w.stale {
		return nil
	}
	list := w.answer.Variants(w.answer.job, w.answer.from, report.ByArms)
	if len(list) == 0 {
		return nil
	}
	list[0].Name = "by longer arms"
	return &list[0]
}
