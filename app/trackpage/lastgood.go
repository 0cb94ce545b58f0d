package trackpage

import (
	"armscribe/app/keyed"
	"armscribe/app/pages"
)

// lastGood is the last answer that a section could give. While its fields hold
// what cannot be answered, that answer stays in sight, marked as belonging to the
// earlier input, and nothing can be done with it.
type lastGood[A any] struct {
	answer *A // nil until the first
	stale  bool
	note   *pages.Notice // why the fields have no answer
	whose  *pages.Notice // what the answer in sight belongs to instead
}

func newLastGood[A any]() lastGood[A] {
	k := lastGood[A]{note: pages.NewNotice(), whose: pages.NewNotice()}
	k.whose.TextStyle.Bold = true
	return k
}

// next takes what the fields come to now: an answer, or why there is none.
func (k *lastGood[A]) next(a *A, err error) {
	k.whose.Say("")
	if k.stale = err != nil; k.stale {
		k.note.Wrong("", each(err))
		return
	}
	k.answer = a
	k.note.Say("")
}

// tell marks an answer that stays; of is what it answers, without a stop.
func (k *lastGood[A]) tell(of string) {
	if k.stale && k.answer != nil {
		k.whose.Say("▲ Figures and picture still belong to the earlier input: " + of + ".")
	}
}

// allow lets a button act on the answer, if that is the fields' own and has what
// the button needs.
func (k *lastGood[A]) allow(b *keyed.Button, has bool) {
	if has && k.answer != nil && !k.stale {
		b.Enable()
	} else {
		b.Disable()
	}
}
