package device

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"os"
	"sync"
	"sync/atomic"
	"time"

	"lintel/app/station"
	"lintel/mesh"
	"lintel/mesh/disk"
	"lintel/mesh/lan"
)

// Options say which device this is.
type Options struct {
	Dir    string     // the data folder; made if it is missing
	Name   mesh.Label // what stands on the device; empty: as it was called before
	Listen string     // see lan.Options.Listen
	Peers  []string   // addresses to keep, "host:port"
	Quiet  bool       // look for nobody: only dial what was typed or worked before
	// Told is called from the station's loop for what people may want to know
	// of. It must not block. Nil: nobody.
	Told func(mesh.Effect)
	// Pairing is called when pairing was closed after too many wrong codes. Nil: nobody.
	Pairing func(failures int, until time.Time)
	// Failed is called when an address could not be reached. Nil: nobody.
	Failed func(addr string, err error)
	// Pictured is called when a picture can be had from Picture that could not
	// before. It must not block. Nil: nobody.
	Pictured func()
	// Limits are those of the network; zero: lan.Defaults().
	Limits lan.Limits
}

// Errors of a device.
var (
	ErrNoUnit  = errors.New("the device belongs to no unit yet")
	ErrHasUnit = errors.New("the device belongs to a unit already")
)

// Device is one device over one data folder. Open makes it, Run works.
type Device struct {
	opt      Options
	signer   signer
	settings *settings
	lock     *disk.Lock
	starter  station.Starter
	net      *lan.Net
	began    time.Time
	worked   chan mesh.PeerState // links that came up, to be remembered
	pictures *pictures
	fetcher  *fetcher

	members atomic.Pointer[membership] // for the network, which asks from many goroutines
	seen    chan []mesh.Device         // who belongs to the unit, the newest only; on its way to device.json

	mu    sync.Mutex // guards life
	life  *life      // nil: the device belongs to no unit
	ctx   context.Context
	ready chan struct{} // closed when Run has begun
}

// membership is what the network needs to know.
type membership struct {
	group mesh.GroupID
	known map[mesh.Key]bool
	ever  map[mesh.Key]bool
}

// life is the station of one unit with its store.
type life struct {
	station *station.Station
	store   *disk.Store
	found   *disk.Found
	stop    context.CancelFunc
	ended   chan struct{} // closed when the station has ended and the store is closed
}

// Open takes the data folder and the port. Run starts the work.
func Open(o Options) (d *Device, err error) {
	d = &Device{opt: o, began: time.Now(), ready: make(chan struct{}), worked: make(chan mesh.PeerState, workedMax), seen: make(chan []mesh.Device, 1)}
	// quic-go would print a web address where the system's UDP buffers are small.
	if err = os.Setenv("QUIC_GO_DISABLE_RECEIVE_BUFFER_WARNING", "true"); err != nil {
		return nil, err
	}
	if d.starter, err = station.ReadStarter(); err != nil {
		return nil, fmt.Errorf("starter lists: %w", err)
	}
	if d.lock, err = disk.LockFolder(o.Dir); err != nil {
		return nil, err
	}
	defer func(lock *disk.Lock) { // d is nil where it returns an error
		if err != nil {
			_ = lock.Close() // the error that matters is on its way
		}
	}(d.lock)
	if d.signer.private, err = disk.LoadKey(o.Dir); err != nil {
		return nil, err
	}
	if d.settings, err = readSettings(o.Dir); err != nil {
		return nil, err
	}
	if o.Name != "" && o.Name != mesh.Label(d.settings.get().Name) {
		if err = d.settings.change(func(c *config) { c.Name = string(o.Name) }); err != nil {
			return nil, err
		}
	}
	d.pictures = openPictures(o.Dir, o.Pictured)
	d.net, err = lan.New(lan.Options{
		Picture: d.pictures.read,
		Key:     d.signer.private, Listen: o.Listen, Group: d.group, Member: d.isMember, Deliver: d.deliver,
		Tries: d.settings, PairingClosed: d.pairingClosed, Failed: o.Failed, Limits: o.Limits, Find: !o.Quiet,
	})
	if err != nil {
		return nil, err
	}
	d.fetcher = d.newFetcher()
	d.pictures.lost = d.fetcher.wakeUp
	return d, nil
}

// Run works until ctx ends.
func (d *Device) Run(ctx context.Context) error {
	d.mu.Lock()
	d.ctx = ctx
	d.mu.Unlock()
	if g, ok := d.settings.get().group(); ok {
		if err := d.begin(g, nil); err != nil {
			_ = d.net.Close() // the error that matters is on its way
			_ = d.lock.Close()
			return err
		}
		_ = d.enterLeft(ctx) // the unit's work goes on whether or not that log can be read
	}
	for _, a := range d.settings.get().Peers {
		d.net.Remember(a)
	}
	for _, a := range d.opt.Peers {
		d.net.Keep(a)
	}
	var noting sync.WaitGroup
	noting.Go(func() { d.noteMembers(ctx) })
	noting.Go(func() { d.rememberAll(ctx) })
	noting.Go(func() { d.pictures.readAsked(ctx) })
	noting.Go(func() { d.fetcher.run(ctx) })
	close(d.ready)
	err := d.net.Run(ctx)
	d.end()
	noting.Wait()
	return errors.Join(err, d.lock.Close())
}

// noteMembers keeps device.json's list of whom to talk to.
func (d *Device) noteMembers(ctx context.Context) {
	for {
		select {
		case all := <-d.seen:
			_ = d.settings.noteMembers(d.Key(), all) // it only matters where the log is damaged too
		case <-ctx.Done():
			return
		}
	}
}

// Ready is closed when the device is at work.
func (d *Device) Ready() <-chan struct{} { return d.ready }

// begin opens the log of a unit and starts its station. founding is written
// first where the log is new.
func (d *Device) begin(g mesh.GroupID, founding *mesh.Item) error {
	o := disk.Defaults()
	o.Dir, o.Group, o.Author = d.opt.Dir, g, d.Key()
	store, found, err := disk.Open(o)
	if err != nil {
		return err
	}
	stock := mesh.Stock{
		Records: found.Records, Places: found.Places, Newest: found.Newest, Verified: found.Verified,
		Fresh: found.Fresh, Memory: found.NotWritable != nil,
	}
	if founding != nil && len(found.Records) == 0 {
		rec := mesh.Record{Received: wallNow(), Item: *founding}
		err := store.Append(mesh.Append{Batch: found.Newest + 1, Records: []mesh.Record{rec}})
		stock.Records, stock.Verified, stock.Newest = []mesh.Record{rec}, 1, found.Newest+1
		stock.Places = []mesh.VoidMark{{Batch: stock.Newest}}
		stock.Memory, stock.Unstored = err != nil, err != nil
	}
	d.members.Store(&membership{group: g, known: map[mesh.Key]bool{}, ever: map[mesh.Key]bool{}})
	ticker := time.NewTicker(time.Second)
	l := &life{store: store, found: found, ended: make(chan struct{})}
	l.station = station.New(station.Options{
		Self: d.Key(), Group: g, Signer: d.signer, Random: fill, Store: store, Stock: stock, Net: d.net,
		Now: d.now, Ticks: ticker.C, Roles: d.starter.Roles, Starter: d.starter.Kits,
		Paired:    len(d.settings.get().Trusted) > 0,
		Condition: d.Condition,
		Told:      d.told, Members: func(all []mesh.Device) { d.tellNetwork(g, all) },
	})
	d.mu.Lock()
	ctx, stop := context.WithCancel(d.ctx)
	l.stop, d.life = stop, l
	d.mu.Unlock()
	go func() { // ends with the life; end() waits for it
		defer close(l.ended)
		defer ticker.Stop()
		_ = l.station.Run(ctx) // it ends because ctx did
		_ = store.Close()      // a mark that could not be written only costs a new incarnation
	}()
	// Nobody is dialled or let in before the log has said who the members are.
	return l.station.Look(ctx, func(station.View) {})
}

// end stops the station, if there is one, and waits for it.
func (d *Device) end() {
	d.mu.Lock()
	l := d.life
	d.life = nil
	d.mu.Unlock()
	if l != nil {
		l.stop()
		<-l.ended
	}
}

// Station returns the station at work, or ErrNoUnit.
func (d *Device) Station() (*station.Station, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.life == nil {
		return nil, ErrNoUnit
	}
	return d.life.station, nil
}

// Opened tells what opening the log found: a torn tail, damage, a folder that
// cannot be written. Nil: the device belongs to no unit.
func (d *Device) Opened() *disk.Found {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.life == nil {
		return nil
	}
	return d.life.found
}

// Key is the device's public key.
func (d *Device) Key() mesh.Key { return d.signer.key() }

// Name is what the device is called.
func (d *Device) Name() mesh.Label { return mesh.Label(d.settings.get().Name) }

// Address is where the device listens, "host:port".
func (d *Device) Address() string { return d.net.Address() }

// Keep dials an address from now on.
func (d *Device) Keep(addr string) { d.net.Keep(addr) }

func (d *Device) group() (mesh.GroupID, bool) {
	m := d.members.Load()
	if m == nil {
		return mesh.GroupID{}, false
	}
	return m.group, true
}

// isMember tells the network whom to talk to: members, and of those that the
// log does not know those that device.json names: whoever let this device in,
// whose entries are still to come, and members whose admission was damaged here
// and can only be fetched again from them.
func (d *Device) isMember(k mesh.Key) bool {
	m := d.members.Load()
	return m != nil && (m.known[k] || !m.ever[k] && d.settings.get().trusted(k))
}

func (d *Device) tellNetwork(g mesh.GroupID, all []mesh.Device) {
	m := &membership{group: g, known: map[mesh.Key]bool{}, ever: map[mesh.Key]bool{}}
	for _, dev := range all {
		m.ever[dev.Key] = true
		m.known[dev.Key] = dev.Status == mesh.Member
	}
	d.members.Store(m)
	select {
	case <-d.seen: // nobody needs the older one
	default:
	}
	d.seen <- all // there is room: only one station at a time tells
}

// deliver hands an event of the network to the station at work.
func (d *Device) deliver(ev mesh.Event) {
	if s, err := d.Station(); err == nil {
		s.Deliver(ev)
	}
}

func (d *Device) pairingClosed(failures int, until time.Time) {
	if d.opt.Pairing != nil {
		d.opt.Pairing(failures, until)
	}
	s, err := d.Station()
	if err != nil {
		return
	}
	seconds := uint32(max(0, time.Until(until).Seconds()))
	act := station.ClosePairing{Failures: uint32(failures), ForSeconds: seconds}
	go func() { // ends when the entry is written, or with the station
		_, _ = s.Do(d.ctx, mesh.By{}, act) // pairing is closed whether or not it could be noted
	}()
}

func (d *Device) now() mesh.Now { return mesh.Now{Mono: time.Since(d.began), Wall: wallNow()} }

func wallNow() mesh.Wall { return mesh.Wall(time.Now().UnixMilli()) }

// fill gives random bytes. crypto/rand.Read never fails.
func fill(b []byte) { _, _ = rand.Read(b) }
