package lan

import (
	"errors"
	"fmt"
	"net"
	"strconv"
	"syscall"
)

// systemPortTries is how often another port is asked of the system when the one
// it gave for TCP is taken for UDP.
const systemPortTries = 20

// windowsInUse is Windows' own number for an address in use (WSAEADDRINUSE).
const windowsInUse = syscall.Errno(10048)

// sockets are the two that share one port.
type sockets struct {
	tcp *net.TCPListener
	udp *net.UDPConn
}

func (s sockets) close() {
	_ = s.tcp.Close()
	_ = s.udp.Close()
}

// bind opens both sockets at listen, see Options.Listen.
func bind(listen string) (s sockets, err error) {
	if listen == "" {
		for port := PortDefault; port < PortDefault+PortsTried; port++ {
			s, err = bindBoth(net.JoinHostPort("", strconv.Itoa(port)))
			if !errors.Is(err, ErrPortInUse) {
				return s, err
			}
		}
		return s, fmt.Errorf("%w: %d to %d", ErrPortInUse, PortDefault, PortDefault+PortsTried-1)
	}
	_, port, err := net.SplitHostPort(listen)
	if err != nil {
		return s, fmt.Errorf("%w: Listen %q is not host:port", ErrOptions, listen)
	}
	for range systemPortTries {
		s, err = bindBoth(listen)
		if port != "0" || !errors.Is(err, ErrPortInUse) {
			return s, err
		}
	}
	return s, err
}

func bindBoth(listen string) (sockets, error) {
	tcp, err := net.Listen("tcp", listen)
	if err != nil {
		return sockets{}, bindError(listen, err)
	}
	host, _, _ := net.SplitHostPort(listen)
	_, port, _ := net.SplitHostPort(tcp.Addr().String())
	udp, err := net.ListenPacket("udp", net.JoinHostPort(host, port))
	if err != nil {
		_ = tcp.Close()
		return sockets{}, bindError(listen, err)
	}
	return sockets{tcp: tcp.(*net.TCPListener), udp: udp.(*net.UDPConn)}, nil
}

func bindError(listen string, err error) error {
	var number syscall.Errno
	if errors.Is(err, syscall.EADDRINUSE) || errors.As(err, &number) && number == windowsInUse {
		return fmt.Errorf("%w: %s", ErrPortInUse, listen)
	}
	return fmt.Errorf("listen on %s: %w", listen, err)
}

// Port is the port that both sockets share.
func (n *Net) Port() int { return n.sockets.tcp.Addr().(*net.TCPAddr).Port }

// Address is where other devices can dial this one, "host:port": what was
// asked for in Listen, or else the first of Addresses.
func (n *Net) Address() string { return n.Addresses()[0] }

// Addresses lists all of them, loopback only if there is nothing else. It asks
// the system each time, since networks come and go.
func (n *Net) Addresses() []string {
	port := strconv.Itoa(n.Port())
	at := n.sockets.tcp.Addr().(*net.TCPAddr)
	if !at.IP.IsUnspecified() {
		return []string{net.JoinHostPort(at.IP.String(), port)}
	}
	var four, six []string
	all, _ := net.InterfaceAddrs() // without an answer there is still loopback
	for _, a := range all {
		p, ok := a.(*net.IPNet)
		switch {
		case !ok || !p.IP.IsGlobalUnicast():
		case p.IP.To4() != nil:
			four = append(four, net.JoinHostPort(p.IP.String(), port))
		default:
			six = append(six, net.JoinHostPort(p.IP.String(), port))
		}
	}
	if all := append(four, six...); len(all) > 0 {
		return all
	}
	return []string{net.JoinHostPort("127.0.0.1", port)}
}
