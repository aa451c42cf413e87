package main

import (
	"context"
	"io"
	"os"
	"reflect"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"lintel/app/device"
	"lintel/app/look"
	"lintel/app/show"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
)

// window is one device's window. The window's goroutine owns it.
type window struct {
	words words.Words
	opt   options
	kept  remembered
	look  *look.Look
	win   fyne.Window
	pages *leaves
	frame *frame
	binds *keysPage // nil: the page was never opened
	end   func()    // ends everything, the window last

	last    sight     // what is painted, without its clocks
	painted time.Time // when
}

// appID is empty: the toolkit then keeps no files of its own, which several
// devices on one machine would share.
const appID = ""

// deviceCommand is one device at work in its window until that is closed.
func deviceCommand(ctx context.Context, w words.Words, o options, stdin io.Reader, stdout io.Writer) error {
	if o.dir == "" {
		dir, err := ownFolder()
		if err != nil {
			return &fault{id: "flag-missing", blanks: []any{"-data", usage}, usage: true}
		}
		o.dir = dir
	}
	if err := mayOpen(); err != nil {
		return &fault{id: "no-window", blanks: []any{noWindow(w, err)}}
	}
	news := make(chan struct{}, 1)
	dev, err := device.Open(device.Options{Dir: o.dir, Name: deviceName(o), Listen: o.listen, Peers: o.peers, Quiet: !o.find, Pictured: func() { wake(news) }})
	if err != nil {
		return about(err, o.dir)
	}
	noise := newProgramSounder(o.dir, func() { wake(news) })
	wk := newWorker(dev, o, news, noise)
	return wk.inWindow(ctx, w, o, noise, stdin, stdout)
}

// deviceName is what the device is called: as it was, when nothing was said.
func deviceName(o options) (name mesh.Label) {
	if o.name != "" {
		return mesh.Label(o.name)
	}
	if _, err := os.Stat(o.dir); err != nil {
		host, _ := os.Hostname() // a device without a name is called by its key
		name = mesh.Label(host)
		if name.Valid() != nil {
			return ""
		}
	}
	return name
}

// endWithin bounds the end of a window and of everything beside it.
const endWithin = 5 * time.Second

// inWindow opens the window, runs everything beside it and ends with it.
func (w *worker) inWindow(ctx context.Context, said words.Words, o options, noise *programSounder, stdin io.Reader, stdout io.Writer) error {
	starter, err := station.ReadStarter()
	if err != nil {
		return err
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	// What was shown as saved is on the disk: a driver that does not let go of
	// its window must not keep the device from being started again.
	context.AfterFunc(ctx, func() { time.AfterFunc(endWithin, func() { os.Exit(1) }) })
	// Once ctx has ended nothing is posted: the toolkit would run it at once,
	// on whatever goroutine it comes from.
	post := func(f func()) {
		if ctx.Err() == nil {
			fyne.Do(f)
		}
	}
	w.layout = starter.Board
	a := app.NewWithID(appID)
	b := &beside{worker: w, post: post, taps: station.NewTaps(w, post, time.Now), units: newUnits(w, post), papers: newPapers(w, said, post), noise: noise, stdin: stdin, stdout: stdout}
	x, err := newWindow(a, said, o, starter, b)
	if err != nil {
		return err
	}
	b.window = x
	w.bring = show.New(post, x.set).Bring
	x.end = stop
	x.win.SetCloseIntercept(stop)
	a.Lifecycle().SetOnStarted(func() { b.begin(ctx, a.Quit) })
	x.win.ShowAndRun()
	stop()
	<-b.ended
	return about(b.failed, o.dir)
}

// newWindow makes the window with its screens.
func newWindow(a fyne.App, said words.Words, o options, starter station.Starter, b *beside) (*window, error) {
	kept := remember(o.dir)
	l, err := look.New(kept.lookOptions(o))
	if err != nil {
		return nil, err
	}
	a.Settings().SetTheme(l.Theme())
	x := &window{words: said, opt: o, kept: kept, look: l}
	x.pages = &leaves{window: x, starter: starter, beside: b}
	x.frame = newFrame(l, said, frameActs{
		leaf: x.pages.leaf, opened: b.worker.opened, shade: x.turnShade, scale: x.rescale, noise: func() { b.worker.sound.Play(look.SoundCall) },
	})
	x.win = a.NewWindow(said.Say("window.title", b.worker.dev.Name()))
	x.win.SetPadded(false)
	x.win.SetContent(x.frame.root)
	x.win.Resize(o.size)
	x.win.SetFullScreen(o.full)
	x.win.SetMaster()
	x.listen(b.post)
	return x, nil
}

// paintEvery is how often a window is painted in which nothing changes.
const paintEvery = 5 * time.Second

// set shows a sight. Where nothing changed and nothing grows older it leaves
// the window as it is, but for once in paintEvery: each painting costs.
func (x *window) set(s sight) {
	now, still := time.Now(), s.still()
	if s.calm() && now.Sub(x.painted) < paintEvery && reflect.DeepEqual(still, x.last) {
		return
	}
	x.last, x.painted = still, now
	x.frame.set(s)
}

// turnShade goes from dark to light and back.
func (x *window) turnShade() {
	shade, name := look.Light, shadeLight
	if x.look.Palette().Shade == look.Light {
		shade, name = look.Dark, shadeDark
	}
	x.look.SetShade(shade)
	x.kept.Shade = name
	x.again()
}

// rescale takes a measured screen.
func (x *window) rescale(s look.Scale) {
	x.look.SetScale(s)
	x.kept.Density = s.Density()
	x.again()
}

// again paints everything after the look changed, and remembers it.
func (x *window) again() {
	fyne.CurrentApp().Settings().SetTheme(x.look.Theme())
	x.frame.paint()
	if err := x.kept.keep(x.opt.dir); err != nil {
		x.frame.fail(x.words.Fault("window-setting"))
		return
	}
	x.frame.fail("", "")
}
