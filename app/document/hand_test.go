package document

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"armscribe/app/job"
)

// held is a job with what was in hand of it.
type held struct {
	job               *job.Job
	current, compared string
}

func holding(d *Document) held { return held{d.Job(), d.Variant().Name, comparedName(d)} }

// Whatever is edited, shown, compared, undone and redone: a gesture undone has
// in hand the variant that was shown when it was made, redone the one that it
// left, so that the next edit goes where the last went; the job is that of then,
// bit for bit, no variant stands beside itself, and the one compared with is the
// one chosen, or that of then where the list has changed.
func TestUndoKeepsTheVariantInHand(t *testing.T) {
	const seed = 20261201
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 7))
	type gesture struct {
		before, after held
		list          bool
	}
	undone := 0
	for range 60 {
		d := New(demo(t), "", true)
		var past, next []gesture
		for step := range 60 {
			n := len(d.Job().Variants)
			any := func() int { return r.IntN(n) }
			before, list := holding(d), false
			var err error
			switch op := r.IntN(13); op {
			case 0, 1:
				d.Show(any())
			case 2:
				d.Compare(any())
			case 3:
				d.Swap()
			case 4:
				err = d.Edit("raise", "", raise(r.NormFloat64()))
			case 5:
				err = d.RenameVariant(any(), fmt.Sprintf("variant %d", step))
			case 6:
				err = d.SetNotes(any(), "", fmt.Sprint("note ", step))
			case 7:
				list = true
				err = d.AddVariant("more", raise(1))
			case 8:
				list = true
				err = d.MoveVariant(any(), any())
			case 9:
				list = true
				err = d.DeleteVariant(any())
			default:
				from, to := &past, &next
				do := d.Undo
				if op == 12 {
					from, to, do = &next, &past, d.Redo
				}
				_, ok := do()
				if ok != (len(*from) > 0) {
					t.Fatalf("step %d: undo or redo %v with %d to go", step, ok, len(*from))
				}
				if !ok {
					continue
				}
				undone++
				g := (*from)[len(*from)-1]
				*from, *to = (*from)[:len(*from)-1], append(*to, g)
				want := g.before
				if op == 12 {
					want = g.after
				}
				got := holding(d)
				if got.job != want.job || got.current != want.current {
					t.Fatalf("step %d: %q in hand, want %q (%v)", step, got.current, want.current, got.job == want.job)
				}
				kept := before.compared
				if j, there := d.Job().Find(kept); g.list || !there || j == d.Variant() {
					kept = want.compared
				}
				if _, renamed := d.Job().Find(before.compared); got.compared != kept && (renamed || g.list) {
					t.Fatalf("step %d: beside %q, was %q, at the gesture %q", step, got.compared, before.compared, want.compared)
				}
				continue
			}
			if after := holding(d); err == nil && after.job != before.job {
				past, next = append(past, gesture{before, after, list}), nil
			}
			if c := d.ComparedIndex(); c >= len(d.Job().Variants) {
				t.Fatalf("step %d: compared with %d of %d", step, c, len(d.Job().Variants))
			}
		}
		for len(past) > 0 {
			d.Undo()
			g := past[len(past)-1]
			if past = past[:len(past)-1]; d.Variant().Name != g.before.current || d.Job() != g.before.job {
				t.Fatalf("undoing all: %q in hand, want %q", d.Variant().Name, g.before.current)
			}
		}
	}
	if undone < 200 {
		t.Errorf("only %d undone", undone)
	}
}

// A proposal begins where it was made, whatever is undone, and takes no notes along.
func TestWhereAVariantBegan(t *testing.T) {
	d := New(demo(t), "", true)
	opened := d.Variant().Corner()
	if err := d.SetNotes(2, "", "made of tube"); err != nil {
		t.Fatal(err)
	}
	if err := d.Edit("raise", "", raise(4)); err != nil {
		t.Fatal(err)
	}
	from := d.Variant().Corner()
	if *d.Variant().Began() != opened {
		t.Error("an edit moved where the variant began")
	}
	if err := d.AddVariant("raised again", raise(3)); err != nil {
		t.Fatal(err)
	}
	if *d.Variant().Began() != from || d.Variant().Notes != "" {
		t.Errorf("the proposal began elsewhere, or has notes: %q", d.Variant().Notes)
	}
	if err := d.Edit("raise", "", raise(6)); err != nil {
		t.Fatal(err)
	}
	d.Undo()
	if *d.Variant().Began() != from {
		t.Error("undo moved where the variant began")
	}
	d.Undo()
	if *d.Variant().Began() != opened {
		t.Error("undo left the beginning of another variant")
	}
}
