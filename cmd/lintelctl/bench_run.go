package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"lintel/mesh"
	"lintel/mesh/disk"
	"lintel/requests"
)

// benchFigures is the last line of bench run. Times are in microseconds.
type benchFigures struct {
	Samples []int64 `json:"samples_us"`
	Loop    int64   `json:"loop_us"` // one round of the bare loop, the median
	Done    int     `json:"done"`
	Lost    int     `json:"lost"` // not there when the limit was over
	Elapsed int64   `json:"elapsed_us"`
	CPU     int64   `json:"cpu_us"`
	Stored  int     `json:"stored"` // read back from the receiver's disk
	Note    string  `json:"note"`
}

// Figures of a run that nobody sets.
const (
	warmTaps   = 5
	warmWithin = 20 * time.Second
	bareRounds = 100 // before the work, and as many after it
	bareSize   = 1<<16 - 1
	spareTime  = 5 * time.Minute // for starting, joining and writing beforehand, beside the limit
)

// benchRun carries out one repetition and prints its figures.
func benchRun(ctx context.Context, p benchPlan, stdout, stderr io.Writer) error {
	if why := p.unsupported(); why != "" {
		return printJSON(stdout, map[string]string{"unsupported": why})
	}
	ctx, stop := context.WithTimeout(ctx, p.Limit+spareTime)
	defer stop()
	u, err := newBenchUnit(p.Dir, stderr)
	if err != nil {
		return err
	}
	r := &repetition{benchUnit: u, plan: p}
	figures, err := r.measure(ctx)
	if err = errors.Join(err, u.end()); err != nil {
		return err
	}
	if figures.Stored, err = r.stored(); err != nil {
		return err
	}
	return printJSON(stdout, figures)
}

// repetition is one measurement of a unit: the author and its receivers.
type repetition struct {
	*benchUnit
	plan      benchPlan
	receivers []string
}

const authorName = "author"

func (r *repetition) author() *benchChild   { return r.devices[0] }
func (r *repetition) receiver() *benchChild { return r.devices[1] }

func (r *repetition) measure(ctx context.Context) (f benchFigures, err error) {
	count := 1
	if r.plan.Work == workFanout {
		count = r.plan.Receivers
	}
	for i := range count {
		r.receivers = append(r.receivers, fmt.Sprintf("receiver-%d", i+1))
	}
	if err = r.join(ctx, r.plan.Work == workAck, append([]string{authorName}, r.receivers...)...); err != nil {
		return f, err
	}
	if err = r.warm(); err != nil {
		return f, err
	}
	loop, err := r.bareLoop(nil)
	if err != nil {
		return f, err
	}
	if r.plan.Work == workCatchup {
		f, err = r.catchUp(ctx)
	} else {
		f, err = r.tapsMeasured()
	}
	if err != nil {
		return f, err
	}
	loop, err = r.bareLoop(loop)
	f.Loop, f.Lost = median(loop), r.plan.N-f.Done
	return f, err
}

// warm makes the taps that are not measured.
func (r *repetition) warm() error {
	p := r.plan
	p.N, p.Outstanding, p.Limit = warmTaps, 1, warmWithin
	a, err := r.taps(r.ends(), lineWarm, p)
	if err == nil && len(a.Samples) < warmTaps {
		err = fmt.Errorf("of %d taps to warm up only %d arrived within %v", warmTaps, len(a.Samples), warmWithin)
	}
	return err
}

// ends is what ends a tap of the work.
func (r *repetition) ends() until {
	if r.plan.Work == workAck {
		return untilAnswered
	}
	return untilReceipts
}

// taps has the author make taps.
func (r *repetition) taps(u until, line mesh.ID, p benchPlan) (benchAnswer, error) {
	return r.author().ask(benchOrder{Do: doWork, Until: u, Count: len(r.receivers), Line: line, Plan: p})
}

// tapsMeasured is every work but catchup.
func (r *repetition) tapsMeasured() (f benchFigures, err error) {
	before, err := r.used()
	if err != nil {
		return f, err
	}
	p := r.plan
	f.Note = "one tap at a time"
	if p.Work == workPipeline {
		f.Note = fmt.Sprintf("%d taps at a time", p.Outstanding)
	} else {
		p.Outstanding = 1
	}
	a, err := r.taps(r.ends(), lineMeasured, p)
	if err != nil {
		return f, err
	}
	after, err := r.used()
	f.Samples, f.Done, f.Elapsed, f.CPU = a.Samples, len(a.Samples), a.Elapsed, after-before
	if f.Samples == nil {
		f.Samples = []int64{}
	}
	return f, err
}

// catchUp has the author write while the receiver is off, and then starts it.
func (r *repetition) catchUp(ctx context.Context) (f benchFigures, err error) {
	if err := r.receiver().end(); err != nil {
		return f, err
	}
	if _, err := r.author().ask(benchOrder{Do: doLinks, Count: 0}); err != nil {
		return f, err
	}
	beforehand := r.plan
	beforehand.Limit = 0
	if _, err := r.taps(untilSaved, lineMeasured, beforehand); err != nil {
		return f, err
	}
	before, err := r.used()
	if err != nil {
		return f, err
	}
	again, err := r.start(ctx, r.receivers[0], false)
	if err != nil {
		return f, err
	}
	r.devices = []*benchChild{r.author(), again}
	a, err := r.author().ask(benchOrder{Do: doCaughtUp, Plan: r.plan})
	if err != nil {
		return f, err
	}
	after, err := r.used()
	f = benchFigures{Samples: []int64{}, Done: a.Done, Elapsed: a.Elapsed, CPU: after - before}
	f.Note = "one sample: from the link standing until all is receipted; cpu_us holds the receiver's start"
	if a.Done == r.plan.N {
		f.Samples = []int64{a.Elapsed}
	}
	return f, err
}

// bareLoop adds the rounds of one more bare loop to those before.
func (r *repetition) bareLoop(before []int64) ([]int64, error) {
	heard, err := r.receiver().ask(benchOrder{Do: doHear})
	if err != nil {
		return nil, err
	}
	p := r.plan
	p.Size = min(p.Size, bareSize)
	a, err := r.author().ask(benchOrder{Do: doBare, Address: heard.Address, Certificate: heard.Certificate, Count: bareRounds, Plan: p})
	return append(before, a.Samples...), err
}

func median(of []int64) int64 {
	if len(of) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(of))
	return sorted[len(sorted)/2]
}

// stored counts the measured entries on the receiver's disk, or on that of the
// receiver that has least.
func (r *repetition) stored() (int, error) {
	least := r.plan.N
	for _, name := range r.receivers {
		n, err := storedIn(r.folder(name))
		if err != nil {
			return 0, err
		}
		least = min(least, n)
	}
	return least, nil
}

// storedIn counts the measured entries in a device's folder, each tap once.
func storedIn(dir string) (int, error) {
	groups, err := disk.Groups(dir)
	if err != nil {
		return 0, err
	}
	taps := map[mesh.Ref]bool{}
	for _, g := range groups {
		o := disk.Defaults()
		o.Dir, o.Group, o.ReadOnly = dir, g, true
		store, found, err := disk.Open(o)
		if err != nil {
			return 0, err
		}
		for _, rec := range found.Records {
			if e, err := mesh.DecodeEntry(rec.Item.Bytes); err == nil && isMeasured(e) {
				taps[e.Ref(1)] = true
			}
		}
		if err := store.Close(); err != nil {
			return 0, err
		}
	}
	return len(taps), nil
}

func isMeasured(e *mesh.Entry) bool {
	var body requests.DebriefLine
	return len(e.Parts) > 1 && e.Parts[1].Kind == requests.KindDebriefLine &&
		mesh.Decode(e.Parts[1].Body, &body) == nil && body.Line == lineMeasured
}
