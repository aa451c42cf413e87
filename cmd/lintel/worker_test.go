package main

import (
	"context"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"lintel/app/device"
	"lintel/app/look"
	"lintel/app/station"
	"lintel/app/words"
	"lintel/mesh"
	"lintel/requests"
)

// deaf makes no sound.
type deaf struct{}

func (deaf) Play(look.Sound)            {}
func (deaf) Works() (works, known bool) { return false, false }

// atWork is a worker over a real device of its own unit, with a case; the device ends
// with the test.
func atWork(t *testing.T, role mesh.ID, tag mesh.Tag) *worker {
	o := options{dir: t.TempDir(), holds: requests.Holds{Role: role, Tag: tag, Rooms: []mesh.ID{"A1"}}}
	dev, err := device.Open(device.Options{Dir: o.dir, Listen: "127.0.0.1:0", Quiet: true})
	require.NoError(t, err)
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- dev.Run(ctx) }() // joined by the cleanup
	t.Cleanup(func() {
		stop()
		require.NoError(t, <-ended)
	})
	<-dev.Ready()
	w := newWorker(dev, o, make(chan struct{}, 1), deaf{})
	starter, err := station.ReadStarter()
	require.NoError(t, err)
	w.layout = starter.Board
	require.NoError(t, w.found(ctx, "Anvil unit, invented"))
	require.NoError(t, w.stock(ctx))
	require.NoError(t, w.begin(ctx))
	return w
}

// partsOf are the parts of a sight that belong to one page.
func partsOf(s sight) map[page]any {
	all := map[page]any{
		pageBoard: s.Board, pageRequests: s.Requests, pageBrief: s.Brief, pageDoor: s.Door, pageTimes: s.Times, pageDebrief: s.Debrief, pageStock: s.Stock, pageDevice: s.Join,
	}
	for p, x := range all {
		if reflect.ValueOf(x).IsNil() {
			delete(all, p)
		}
	}
	return all
}

// Goal: a look costs what the page that is open needs, and no other. Method: a
// real device with a case; open each page and see what a sight brings. The
// debrief is worked out again only when something was recorded.
func TestASightHasOnlyThePageThatIsOpen(t *testing.T) {
	w := atWork(t, "charge", "C1")
	for _, p := range append(outsideWays(), pageBoard) {
		w.opened(p)
		s := w.look(t.Context(), time.Now())
		require.Equal(t, p, s.Page)
		require.Len(t, partsOf(s), 1)
		require.Contains(t, partsOf(s), p)
	}
	w.opened(pageFirst)
	require.Equal(t, pageStock, w.look(t.Context(), time.Now()).Page, "a charge nurse begins with what rooms lack")
	w.opened(pageDebrief)
	first, again := w.look(t.Context(), time.Now()).Debrief, w.look(t.Context(), time.Now()).Debrief
	require.Same(t, first, again)
	require.NoError(t, w.doAll(t.Context(), []station.Act{station.NoteTime{What: "induction"}}))
	require.NotSame(t, first, w.look(t.Context(), time.Now()).Debrief)
}

// Goal: battery and disk reach the brief, and nothing is made up. Method: look
// at the brief of a real device, and ask the device itself.
func TestTheBriefKnowsHowTheDeviceIs(t *testing.T) {
	w := atWork(t, "charge", "C1")
	w.opened(pageBrief)
	s := w.look(t.Context(), time.Now())
	require.Equal(t, w.dev.Condition().DiskMB > 0, s.Health.DiskMB > 0)
	require.EqualValues(t, w.dev.Condition().Battery, s.Health.Battery)
	require.False(t, s.Health.ScreenOn, "no system tells")
}

// Goal: papers are written beside the device and say where they are. Method:
// ask for the sheets and the record of a case with two people; ask again where
// nothing can be written, and for a case that has nobody.
func TestPapersAreWrittenAndSayWhere(t *testing.T) {
	w := atWork(t, "charge", "C1")
	p := newPapers(w, words.English(), func(f func()) { f() })
	ask := func(paper func(func(string, error))) (where string, failed error) {
		paper(func(at string, err error) { where, failed = at, err })
		(<-p.errands)(t.Context())
		return where, failed
	}
	exposure := func(done func(string, error)) { p.exposure(newest(t, w), done) }
	record := func(done func(string, error)) { p.record("record", newest(t, w), done) }
	folder := filepath.Join(w.dir, papersFolder)
	where, err := ask(exposure)
	require.NoError(t, err)
	require.Equal(t, folder, where)
	where, err = ask(record)
	require.NoError(t, err)
	require.Equal(t, folder, filepath.Dir(where))
	all, err := filepath.Glob(filepath.Join(folder, "*.pdf"))
	require.NoError(t, err)
	require.Len(t, all, 3, "two people and a record: %v", all)
	for _, path := range all {
		b, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, "%PDF", string(b[:4]))
	}
	_, err = ask(func(done func(string, error)) { p.exposure(mesh.Ref{}, done) })
	require.ErrorContains(t, err, "no-paper")
	require.NoError(t, os.RemoveAll(folder))
	require.NoError(t, os.WriteFile(folder, nil, 0o600))
	_, err = ask(record)
	require.ErrorContains(t, err, "window-paper")
}

// newest is the newest case of the device.
func newest(t *testing.T, w *worker) (of mesh.Ref) {
	st, err := w.dev.Station()
	require.NoError(t, err)
	require.NoError(t, st.Look(t.Context(), func(v station.View) {
		all := v.Board.Cases()
		of = all[len(all)-1].Ref
	}))
	return of
}

// TestNamesOfFilesSuitEverySystem gives tags that people may have.
func TestNamesOfFilesSuitEverySystem(t *testing.T) {
	require.Equal(t, "exposure-L1-00_..pdf", fileName("exposure-L1-00/..pdf"))
	require.Equal(t, "_-_.pdf", fileName("Å-*.pdf"))
}

// TestErrandsAreFewAndSaySo fills the queue.
func TestErrandsAreFewAndSaySo(t *testing.T) {
	e, refused := newErrands(), 0
	for range errandsMax + 2 {
		e.take(func(context.Context) {}, func(err error) {
			require.ErrorIs(t, err, errBusy)
			refused++
		})
	}
	require.Equal(t, 2, refused)
}
