package lan

import (
	"context"
	"encoding/hex"
	"io"
	"log"
	"net"
	"net/netip"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/hashicorp/mdns"
	"github.com/miekg/dns"
)

// What devices are called in mDNS.
const (
	mdnsService = "_lintel._udp"
	mdnsDomain  = "local."
)

const (
	queryFor   = time.Second // how long answers to one query are waited for
	entriesMax = 256         // answers to one query; the library drops those for which there is no room
)

// multicast answers and asks by mDNS, with one server and one query for each
// interface. Its methods but query are called by the finder's loop only.
type multicast struct {
	finder *finder
	zones  map[int]*served // by the interface's index
}

// served is one interface on which questions are answered.
type served struct {
	server *mdns.Server
	name   string
}

// quiet is a logger for a library that writes about what strangers send.
func quiet() *log.Logger { return log.New(io.Discard, "", 0) }

// serve begins to answer on wires that are new, and ends on those that are
// gone. The library says no goodbye; nobody here waits for one.
func (m *multicast) serve(wires []wire) {
	there := map[int]bool{}
	for _, w := range wires {
		at := w.at
		there[at.Index] = true
		if at.Flags&net.FlagMulticast == 0 || m.zones[at.Index] != nil && m.zones[at.Index].name == at.Name {
			continue
		}
		m.end(at.Index)
		z := &zone{finder: m.finder, at: at}
		s, err := mdns.NewServer(&mdns.Config{Zone: z, Iface: &at, Logger: quiet()})
		if err == nil { // else it is tried again when the interfaces are next read
			m.zones[at.Index] = &served{server: s, name: at.Name}
			z.announce()
		}
	}
	for index := range m.zones {
		if !there[index] {
			m.end(index)
		}
	}
}

// end stops answering on one interface. The library's own goroutines end when
// their sockets are closed; they touch nothing but a zone.
func (m *multicast) end(index int) {
	if s := m.zones[index]; s != nil {
		_ = s.server.Shutdown() // it cannot fail
		delete(m.zones, index)
	}
}

// zone answers questions that come on one interface, with the addresses that
// the interface has when it is asked.
type zone struct {
	finder *finder
	at     net.Interface

	mu        sync.Mutex // guards announced
	announced time.Time
}

// Records answers one question; it is called by the library's goroutines. The
// library sends answers only to whoever asked, where another responder on that
// host may keep them from whom they are for. So a question that does not ask for
// that is answered to everybody as well.
func (z *zone) Records(q dns.Question) []dns.RR {
	if q.Name == mdnsService+"."+mdnsDomain && q.Qclass&askedAlone == 0 {
		z.announce()
	}
	return z.records(q)
}

func (z *zone) records(q dns.Question) []dns.RR {
	var ips []net.IP
	for _, w := range z.finder.where() {
		for _, p := range w.prefixes {
			if w.at.Index == z.at.Index && (!z.finder.bound.IsValid() || z.finder.bound == p.Addr()) {
				ips = append(ips, p.Addr().AsSlice())
			}
		}
	}
	if len(ips) == 0 {
		return nil // the library would ask the system for names
	}
	// A question that came on another interface reaches this one as well. So
	// each has its own names, and whoever asked takes what it can reach.
	name := z.finder.called + "-" + strconv.Itoa(z.at.Index)
	sign := z.finder.sign(beaconCall)
	s, err := mdns.NewMDNSService(name, mdnsService, mdnsDomain, name+"."+mdnsDomain, int(sign.port), ips, txtOf(sign))
	if err != nil {
		return nil // an address that mDNS cannot carry
	}
	return s.Records(q)
}

// txtOf writes what a beacon says as the texts of an mDNS answer.
func txtOf(b beacon) []string {
	return []string{
		"v=" + strconv.Itoa(beaconVersion), "p=" + strconv.Itoa(int(b.port)),
		"n=" + hex.EncodeToString(b.nonce[:]), "t=" + hex.EncodeToString(b.tag[:]),
	}
}

// readTXT reads what txtOf wrote; texts that it does not know are passed over.
func readTXT(fields []string) (b beacon, ok bool) {
	b.kind = beaconCall
	got := map[string]bool{}
	for _, f := range fields {
		key, value, _ := strings.Cut(f, "=")
		if got[key] {
			return beacon{}, false
		}
		switch key {
		case "v":
			got[key] = value == strconv.Itoa(beaconVersion)
		case "p":
			port, err := strconv.ParseUint(value, 10, 16)
			b.port, got[key] = uint16(port), err == nil && port > 0 && value == strconv.FormatUint(port, 10)
		case "n":
			got[key] = readHex(b.nonce[:], value)
		case "t":
			got[key] = readHex(b.tag[:], value)
		}
	}
	return b, got["v"] && got["p"] && got["n"] && got["t"]
}

// readHex fills out from exactly its length in lower-case hexadecimal.
func readHex(out []byte, value string) bool {
	if len(value) != 2*len(out) || strings.ToLower(value) != value {
		return false
	}
	_, err := hex.Decode(out, []byte(value))
	return err == nil
}

// query asks once on one wire and notes what answers. By IPv4 first: without a
// route to everywhere the library has to be asked by IPv6.
func (m *multicast) query(ctx context.Context, w wire) {
	if w.at.Flags&net.FlagMulticast == 0 {
		return
	}
	if w.has(true) {
		if entries, err := ask(ctx, w, true); err == nil {
			m.take(w, entries)
			return
		}
	}
	if w.has(false) {
		if entries, err := ask(ctx, w, false); err == nil {
			m.take(w, entries)
		}
	}
}

// ask sends one query. The library's call cannot be ended before its time; when
// ctx ends it is left alone, for queryFor at most.
func ask(ctx context.Context, w wire, four bool) ([]*mdns.ServiceEntry, error) {
	entries := make(chan *mdns.ServiceEntry, entriesMax)
	ended := make(chan error, 1)
	at := w.at
	go func() { // ends by itself within queryFor; it touches only these two channels
		ended <- mdns.QueryContext(ctx, &mdns.QueryParam{
			Service: mdnsService, Domain: mdnsDomain, Timeout: queryFor, Interface: &at, Entries: entries,
			DisableIPv4: !four, DisableIPv6: four, WantUnicastResponse: true, Logger: quiet(),
		})
	}()
	select {
	case <-ctx.Done():
		return nil, ctx.Err()
	case err := <-ended:
		if err != nil {
			return nil, err
		}
	}
	out := make([]*mdns.ServiceEntry, 0, len(entries))
	for range len(entries) {
		out = append(out, <-entries)
	}
	return out, nil
}

// take notes the answers with an address in the wire's own networks: others
// come from another interface, or lead somewhere that mDNS does not reach.
func (m *multicast) take(w wire, entries []*mdns.ServiceEntry) {
	for _, e := range entries {
		sign, ok := readTXT(e.InfoFields)
		if !ok || int(sign.port) != e.Port || !strings.HasSuffix(e.Name, "."+mdnsService+"."+mdnsDomain) {
			continue
		}
		if a, ok := reachable(w, e); ok {
			m.finder.sighted(sign, a, ByMDNS)
		}
	}
}

// reachable picks the address of an answer that is on the wire, IPv4 first.
func reachable(w wire, e *mdns.ServiceEntry) (a netip.Addr, ok bool) {
	if a, ok = netip.AddrFromSlice(e.AddrV4.To4()); ok && w.onLink(a) {
		return a, true
	}
	if e.AddrV6IPAddr == nil {
		return a, false
	}
	a, ok = netip.AddrFromSlice(e.AddrV6IPAddr.IP)
	if !ok || !w.onLink(a) {
		return a, false
	}
	if a.IsLinkLocalUnicast() {
		a = a.WithZone(w.at.Name)
	}
	return a, true
}
