package bumppage

import (
	"armscribe/app/document"
	"armscribe/app/job"
	"armscribe/app/pages"
	"armscribe/kinematics"
)

// Proposal is what the open section would keep as a variant; nil for nothing.
func (s *charted) Proposal() *job.Variant {
	if p, ok := s.of.(pages.Proposer); ok {
		return p.Proposal()
	}
	return nil
}

// proposal is the variant shown with another corner, under what it is called in the
// view.
func (p *Page) proposal(name string, c kinematics.Corner) *job.Variant {
	v := p.variant().Proposal(name)
	document.SetCorner(&v, c)
	return &v
}

// Proposal is the corner with the cure.
func (c *cure) Proposal() *job.Variant {
	if c.found == nil {
		return nil
	}
	return c.p.proposal("with the cure", c.found.Result.Corner)
}

// Proposal is the corner as its toe curve was measured.
func (f *fit) Proposal() *job.Variant {
	if f.fitted == nil {
		return nil
	}
	return f.p.proposal("fitted", f.fitted.Result.Corner)
}

// Proposal is the corner with the adjusters set.
func (a *adjusters) Proposal() *job.Variant {
	if a.found == nil || a.found.Setting == nil {
		return nil
	}
	return a.p.proposal("so set", a.found.Setting.Advised().Corner)
}
