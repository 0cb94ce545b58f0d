package clearance

import (
	"context"
	"testing"

	"armscribe/kinematics/clearance"
)

// slow runs work only when told to.
type slow struct{ jobs []func() }

func (s *slow) run(work, then func()) {
	s.jobs = append(s.jobs, func() { work(); then() })
}

// finish lets the oldest job end.
func (s *slow) finish(t *testing.T) {
	t.Helper()
	if len(s.jobs) == 0 {
		t.Fatal("nothing is being worked on")
	}
	j := s.jobs[0]
	s.jobs = s.jobs[1:]
	j()
}

// newSlowDesk answers with the bump of what was asked, as Unmet.
func newSlowDesk() (*Desk, *slow, *[]int) {
	s, got := &slow{}, &[]int{}
	d := NewDesk(s.run)
	d.work = func(_ context.Context, q *Query, _ Parts) (Answers, error) {
		return Answers{Unmet: int(q.Span.Bump)}, nil // as if it could not be cancelled
	}
	d.Done = func(_ *Query, a *Answers) { *got = append(*got, a.Unmet) }
	return d, s, got
}

func bump(mm float64) *Query { return &Query{Span: clearance.Span{Bump: mm}} }

func TestAStaleAnswerIsThrownAway(t *testing.T) {
	d, s, got := newSlowDesk()
	d.Ask(bump(71), AllParts)
	d.Ask(bump(83), AllParts)
	d.Ask(bump(97), AllParts)
	if len(s.jobs) != 1 {
		t.Fatalf("%d jobs at once", len(s.jobs))
	}
	s.finish(t)
	if len(*got) != 0 {
		t.Fatalf("the answer to a former question was handed on: %v", *got)
	}
	s.finish(t)
	if len(*got) != 1 || (*got)[0] != 97 || d.Waiting() || len(s.jobs) != 0 {
		t.Fatalf("answers %v, waiting %v, %d jobs left", *got, d.Waiting(), len(s.jobs))
	}
}

func TestAnswersThatNobodyAsksForAnyMoreAreThrownAway(t *testing.T) {
	d, s, got := newSlowDesk()
	d.Ask(bump(71), Gaps)
	d.Drop()
	s.finish(t)
	if len(*got) != 0 || len(s.jobs) != 0 {
		t.Fatalf("answers %v, %d jobs", *got, len(s.jobs))
	}
	d.Ask(bump(71), Gaps)
	d.Ask(bump(71), Gaps)
	s.finish(t)
	if len(*got) != 1 || len(s.jobs) != 0 {
		t.Fatalf("asked twice the same: answers %v, %d jobs", *got, len(s.jobs))
	}
}

func TestMorePartsAreAnotherQuestion(t *testing.T) {
	d, s, got := newSlowDesk()
	d.Ask(bump(71), Gaps)
	d.Ask(bump(71), AllParts)
	s.finish(t)
	s.finish(t)
	if len(*got) != 1 {
		t.Fatalf("answers %v", *got)
	}
}

func TestACancelledQuestionEndsEarly(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	q := &Query{}
	var m Answers
	if err := m.answer(ctx, nil, q, Front, true); err != context.Canceled || m.Parts != 0 {
		t.Errorf("%v, parts %b", err, m.Parts)
	}
}

// The desk in real goroutines, for the race detector.
func TestRealGoroutinesAnswerTheLastQuestion(t *testing.T) {
	inbox := make(chan func())
	d := NewDesk(func(work, then func()) { go func() { work(); inbox <- then }() })
	d.work = func(ctx context.Context, q *Query, _ Parts) (Answers, error) {
		<-ctx.Done()
		if q.Span.Bump == 97 {
			return Answers{Unmet: 97}, nil
		}
		return Answers{}, ctx.Err()
	}
	last := 0
	d.Done = func(_ *Query, a *Answers) { last = a.Unmet }
	d.Ask(bump(71), AllParts)
	d.Ask(bump(97), AllParts)
	(<-inbox)()
	d.cancel()
	(<-inbox)()
	if last != 97 || d.Waiting() {
		t.Errorf("answer %d, waiting %v", last, d.Waiting())
	}
}
