package lan

import (
	"net"
	"time"

	"github.com/miekg/dns"
	"golang.org/x/net/ipv4"
	"golang.org/x/net/ipv6"
)

// askedAlone is the bit of a question's class with which an answer to the asker
// alone is enough (RFC 6762, 5.4). This program's own questions have it.
const askedAlone = 1 << 15

// announceEvery is how often everybody is told at most, on each interface (RFC
// 6762, 6).
const announceEvery = time.Second

// mdnsPort is where everybody listens, and what answers must come from.
const mdnsPort = 5353

// mdnsHops is the hop limit of what is said to everybody (RFC 6762, 11).
const mdnsHops = 255

// announce tells everybody on the zone's interface about this device's service.
// What is lost is told again at the next question.
func (z *zone) announce() {
	z.mu.Lock()
	now := time.Now()
	soon := now.Sub(z.announced) < announceEvery
	if !soon {
		z.announced = now
	}
	z.mu.Unlock()
	records := z.records(dns.Question{Name: mdnsService + "." + mdnsDomain, Qtype: dns.TypePTR, Qclass: dns.ClassINET})
	if soon || len(records) == 0 {
		return
	}
	m := &dns.Msg{MsgHdr: dns.MsgHdr{Response: true, Authoritative: true}, Compress: true, Answer: records}
	if b, err := m.Pack(); err == nil && !z.tell4(b) {
		z.tell6(b)
	}
}

// tell4 sends b to everybody by IPv4. The socket shares its port with that of
// the library, and with other responders, and lives only for this.
func (z *zone) tell4(b []byte) bool {
	to := &net.UDPAddr{IP: net.IPv4(224, 0, 0, 251), Port: mdnsPort}
	c, err := net.ListenMulticastUDP("udp4", &z.at, to)
	if err != nil {
		return false
	}
	defer func() { _ = c.Close() }()
	p := ipv4.NewPacketConn(c)
	if p.SetMulticastInterface(&z.at) != nil || p.SetMulticastTTL(mdnsHops) != nil || p.SetMulticastLoopback(true) != nil {
		return false
	}
	_, err = c.WriteToUDP(b, to)
	return err == nil
}

// tell6 does the same by IPv6.
func (z *zone) tell6(b []byte) {
	to := &net.UDPAddr{IP: net.ParseIP("ff02::fb"), Port: mdnsPort}
	c, err := net.ListenMulticastUDP("udp6", &z.at, to)
	if err != nil {
		return
	}
	defer func() { _ = c.Close() }()
	p := ipv6.NewPacketConn(c)
	if p.SetMulticastInterface(&z.at) != nil || p.SetMulticastHopLimit(mdnsHops) != nil || p.SetMulticastLoopback(true) != nil {
		return
	}
	_, _ = c.WriteToUDP(b, to) // told again at the next question
}
