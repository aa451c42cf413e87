package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"time"

	"lintel/app/device"
	"lintel/app/station"
	"lintel/mesh"
)

// benchDeviceCommand starts one device that is told by its standard input what
// to do: one JSON order a line, one JSON answer a line. It ends with its input.
const benchDeviceCommand = "device"

// What a device can be told to do.
const (
	doFound    = "found"     // begin a unit
	doInvite   = "invite"    // show a code; answers Code and Address
	doJoin     = "join"      // enter the unit behind Address with Code
	doKeep     = "keep"      // dial Address from now on
	doLinks    = "links"     // wait until there are Count links
	doWork     = "work"      // make Plan.N taps; answers Samples and Elapsed
	doCaughtUp = "caught-up" // wait until all taps are receipted; answers Done and Elapsed
	doUsed     = "used"      // answers only what every answer holds: the CPU time so far
	doHear     = "hear"      // the listening side of the bare loop; answers Address and Certificate
	doBare     = "bare"      // the other side of it; answers Samples
)

// benchOrder is one order.
type benchOrder struct {
	Do          string    `json:"do"`
	Address     string    `json:"address,omitempty"`
	Code        string    `json:"code,omitempty"`
	Certificate []byte    `json:"certificate,omitempty"`
	Count       int       `json:"count,omitempty"`
	Until       until     `json:"until,omitempty"`
	Line        mesh.ID   `json:"line,omitempty"`
	Plan        benchPlan `json:"plan"`
}

// benchAnswer answers one order. Times are in microseconds.
type benchAnswer struct {
	Error       string  `json:"error,omitempty"`
	Address     string  `json:"address,omitempty"`
	Code        string  `json:"code,omitempty"`
	Certificate []byte  `json:"certificate,omitempty"`
	Samples     []int64 `json:"samples,omitempty"`
	Done        int     `json:"done,omitempty"`
	Elapsed     int64   `json:"elapsed,omitempty"`
	Used        int64   `json:"used"`
}

// benchSubject is a device with what measures it. The loop in obeyAll owns it.
type benchSubject struct {
	dir    string
	dev    *device.Device
	tally  *tally
	echo   *echo
	hearer *hearer // nil: nobody listens for the bare loop
}

// benchDevice runs one device until its input ends.
func benchDevice(ctx context.Context, args []string, stdin io.Reader, stdout io.Writer) (err error) {
	f := flag.NewFlagSet("bench device", flag.ContinueOnError)
	dir := f.String("data", "", "")
	name := f.String("name", "", "")
	answers := f.Bool("answers", false, "") // answer every tap of others with an entry
	if err := parseBench(f, usageBench, args); err != nil {
		return err
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	s := &benchSubject{dir: *dir, tally: newTally()}
	s.echo = newEcho(s.tally, *answers, func() mesh.Key { return s.dev.Key() })
	s.dev, err = device.Open(device.Options{
		Dir: *dir, Name: mesh.Label(*name), Listen: "127.0.0.1:0",
		Told: func(ef mesh.Effect) { s.tally.told(ef); s.echo.told(ef) },
	})
	if err != nil {
		return err
	}
	ended := make(chan error, 1)
	go func() { ended <- s.dev.Run(ctx) }() // awaited below
	select {
	case <-s.dev.Ready():
	case err := <-ended:
		return err
	}
	answering := make(chan struct{})
	go func() { // awaited below; it ends with ctx
		defer close(answering)
		s.echo.run(ctx, s.dev)
	}()
	err = s.obeyAll(ctx, stdin, stdout)
	stop()
	<-answering
	if ending := <-ended; err == nil && !errors.Is(ending, context.Canceled) {
		err = ending
	}
	return err
}

// obeyAll carries out orders until there are no more.
func (s *benchSubject) obeyAll(ctx context.Context, stdin io.Reader, stdout io.Writer) error {
	defer s.stopHearing()
	for in := json.NewDecoder(stdin); ; {
		var o benchOrder
		if err := in.Decode(&o); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
		var a benchAnswer
		if err := s.obey(ctx, o, &a); err != nil {
			a.Error = err.Error()
		}
		a.Used = cpuTime().Microseconds()
		if err := printJSON(stdout, a); err != nil {
			return err
		}
	}
}

func (s *benchSubject) obey(ctx context.Context, o benchOrder, a *benchAnswer) (err error) {
	switch o.Do {
	case doFound:
		return s.dev.Found("Invented unit")
	case doInvite:
		a.Address = s.dev.Address()
		a.Code, _, err = s.dev.Invite(ctx, mesh.By{}, func(mesh.Key, error) {})
		return err
	case doJoin:
		return s.dev.Join(ctx, o.Address, o.Code)
	case doKeep:
		s.dev.Keep(o.Address)
		return nil
	case doLinks:
		return s.tally.wait(ctx, func() bool { return len(s.tally.links) == o.Count })
	case doWork:
		return s.work(ctx, o, a)
	case doCaughtUp:
		return s.caughtUp(ctx, o, a)
	case doUsed:
		return nil
	case doHear:
		return s.hear(a)
	case doBare:
		return s.bare(o, a)
	}
	return fmt.Errorf("there is no order %q", o.Do)
}

// work makes N taps, Outstanding at once, each until it has ended.
func (s *benchSubject) work(ctx context.Context, o benchOrder, a *benchAnswer) error {
	st, err := s.dev.Station()
	if err != nil {
		return err
	}
	if o.Plan.Limit > 0 {
		var stop context.CancelFunc
		ctx, stop = context.WithTimeout(ctx, o.Plan.Limit)
		defer stop()
	}
	s.tally.reset(o.Until, o.Count, o.Plan.N)
	began := time.Now()
	err = tapAll(ctx, o, func(tap mesh.Tap, parts []mesh.Part, done chan struct{}) error {
		s.tally.begin(tap, done)
		return enter(ctx, st, tap, parts)
	})
	if errors.Is(err, context.DeadlineExceeded) {
		err = nil // what is not there by now is lost
	}
	a.Elapsed = time.Since(began).Microseconds()
	var last time.Time
	if a.Samples, last = s.tally.taken(); len(a.Samples) == o.Plan.N {
		a.Elapsed = last.Sub(began).Microseconds()
	}
	return err
}

// enter records one tap. One that the disk refuses is not measured further.
func enter(ctx context.Context, st *station.Station, tap mesh.Tap, parts []mesh.Part) error {
	r, err := st.Enter(ctx, tap, parts)
	if err == nil && !r.Saved {
		err = errors.New("the disk took no entry")
	}
	return err
}

// linkWithin bounds how long a device that was started again may take to be
// linked; it is not measured.
const linkWithin = 30 * time.Second

// caughtUp waits for the link, and from then on until everything is receipted
// or the limit is over.
func (s *benchSubject) caughtUp(ctx context.Context, o benchOrder, a *benchAnswer) error {
	t := s.tally
	var up time.Time
	linking, stop := context.WithTimeout(ctx, linkWithin)
	defer stop()
	err := t.wait(linking, func() bool {
		for _, since := range t.links {
			up = since
		}
		return len(t.links) > 0
	})
	if err != nil {
		return fmt.Errorf("the link did not come: %w", err)
	}
	limited, stop := context.WithDeadline(ctx, up.Add(o.Plan.Limit))
	defer stop()
	err = t.wait(limited, func() bool { return len(t.samples) >= o.Plan.N })
	if errors.Is(err, context.DeadlineExceeded) {
		err = nil
	}
	samples, last := t.taken()
	a.Done, a.Elapsed = len(samples), time.Since(up).Microseconds()
	if a.Done == o.Plan.N {
		a.Elapsed = last.Sub(up).Microseconds()
	}
	return err
}
