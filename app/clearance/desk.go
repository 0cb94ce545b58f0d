package clearance

import "context"

// Desk works out fine answers in the background, one at a time. What is asked
// meanwhile replaces what was asked before, and an answer to a question that
// nobody asks any more is thrown away.
//
// Its methods, and the functions it calls, belong to one goroutine.
type Desk struct {
	// Run works elsewhere and then goes on in the desk's own goroutine.
	Run func(work, then func())
	// Done is told the answers to what was last asked.
	Done func(q *Query, a *Answers)

	work   func(ctx context.Context, q *Query, parts Parts) (Answers, error) // Fine
	wanted *question
	cancel context.CancelFunc // of what is being worked out; nil when idle
}

type question struct {
	Query
	parts Parts
}

// NewDesk returns a desk without work; Done is to be set.
func NewDesk(run func(work, then func())) *Desk { return &Desk{Run: run, work: Fine} }

// Ask asks for parts of a query's answers. The same question again changes
// nothing.
func (d *Desk) Ask(q *Query, parts Parts) {
	if d.wanted != nil && d.wanted.parts == parts && d.wanted.Same(q) {
		return
	}
	d.wanted = &question{q.Clone(), parts}
	if d.cancel != nil {
		d.cancel() // and goes on with what is wanted now
		return
	}
	d.next()
}

// Drop asks for nothing any more.
func (d *Desk) Drop() {
	d.wanted = nil
	if d.cancel != nil {
		d.cancel()
	}
}

// Waiting tells whether an answer is to come.
func (d *Desk) Waiting() bool { return d.wanted != nil }

// next works on what is wanted.
func (d *Desk) next() {
	asked := d.wanted
	if asked == nil {
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	d.cancel = cancel
	var a Answers
	var err error
	d.Run(func() { a, err = d.work(ctx, &asked.Query, asked.parts) }, func() {
		cancel()
		d.cancel = nil
		if d.wanted != asked {
			d.next()
			return
		}
		d.wanted = nil
		if err == nil {
			d.Done(&asked.Query, &a)
		}
	})
}
