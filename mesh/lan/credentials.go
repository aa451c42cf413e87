package lan

import (
	"crypto/ed25519"
	"crypto/rand"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"fmt"
	"math/big"
	"time"

	"github.com/quic-go/quic-go"

	"lintel/mesh"
)

// What a session is for, as negotiated in TLS.
const (
	forFrames  = "feed/1"
	forPairing = "pair/1"
	forPicture = "picture/1"
)

// certify makes the self-signed certificate. Only the key in it is ever read;
// the dates and names are there because the format asks for them.
func certify(key ed25519.PrivateKey) (tls.Certificate, error) {
	serial, err := rand.Int(rand.Reader, big.NewInt(1<<62))
	if err != nil {
		return tls.Certificate{}, fmt.Errorf("certificate: %v", err)
	}
	about := &x509.Certificate{
		SerialNumber: serial,
		Subject:      pkix.Name{CommonName: "lintel"},
		NotBefore:    time.Unix(0, 0),
		NotAfter:     time.Date(9999, 12, 31, 0, 0, 0, 0, time.UTC),
		KeyUsage:     x509.KeyUsageDigitalSignature,
	}
	der, err := x509.CreateCertificate(rand.Reader, about, about, key.Public(), key)
	if err != nil {
		return tls.Certificate{}, fmt.Errorf("certificate: %v", err)
	}
	return tls.Certificate{Certificate: [][]byte{der}, PrivateKey: key}, nil
}

// tlsConfig is used for both sides and both transports. It accepts any
// certificate in TLS's own sense and decides in verify.
func (n *Net) tlsConfig(protocols ...string) *tls.Config {
	return &tls.Config{
		MinVersion:             tls.VersionTLS13,
		Certificates:           []tls.Certificate{n.certificate},
		NextProtos:             protocols,
		ClientAuth:             tls.RequireAnyClientCert,
		InsecureSkipVerify:     true, // there are no names and no authorities; verify pins the key
		VerifyConnection:       n.verify,
		SessionTicketsDisabled: true,
		// The hybrid exchange would make the first flight two packets, and
		// a first flight that is lost half as often connects sooner.
		CurvePreferences: []tls.CurveID{tls.X25519},
	}
}

// verify ends a handshake with anybody who is not admitted, and with ourselves.
func (n *Net) verify(cs tls.ConnectionState) error {
	key, err := keyOf(cs)
	switch {
	case err != nil:
		return err
	case key == n.key:
		return ErrOwnAddress
	case cs.NegotiatedProtocol == forPairing:
		return nil
	case cs.NegotiatedProtocol != forFrames && cs.NegotiatedProtocol != forPicture:
		return fmt.Errorf("no protocol was negotiated")
	}
	if _, ok := n.opt.Group(); !ok || !n.opt.Member(key) {
		return ErrNotAdmitted
	}
	return nil
}

// keyOf returns the key that the other side has proved to hold.
func keyOf(cs tls.ConnectionState) (k mesh.Key, err error) {
	if len(cs.PeerCertificates) != 1 {
		return k, fmt.Errorf("%d certificates, wanted one", len(cs.PeerCertificates))
	}
	public, ok := cs.PeerCertificates[0].PublicKey.(ed25519.PublicKey)
	if !ok || len(public) != len(k) {
		return k, fmt.Errorf("the certificate's key is not Ed25519")
	}
	copy(k[:], public)
	return k, nil
}

// quicConfig gives both sides' settings. Loss recovery has no setting but the
// round trip assumed before one is measured, which a token of an earlier
// session carries; the rest follows from the measured round trip.
func (n *Net) quicConfig() *quic.Config {
	waiting := uint64(n.opt.Limits.WaitingLenMax)
	return &quic.Config{
		Versions:             []quic.Version{quic.Version1},
		HandshakeIdleTimeout: n.opt.Limits.OpenWithin,
		MaxIdleTimeout:       n.opt.Limits.IdleMax,
		TokenStore:           n.tokens,
		// Half for each stream: catch-up that is not read leaves room for taps.
		InitialStreamReceiveWindow:     waiting / 2,
		MaxStreamReceiveWindow:         waiting / 2,
		InitialConnectionReceiveWindow: waiting,
		MaxConnectionReceiveWindow:     waiting,
		MaxIncomingStreams:             2,
		MaxIncomingUniStreams:          -1,
	}
}

// resetKey lets a device that was started again tell its peers at once that
// their old sessions with it are gone. It follows from the device's key.
func resetKey(key ed25519.PrivateKey) *quic.StatelessResetKey {
	k := quic.StatelessResetKey(sha256.Sum256(append([]byte("lintel stateless reset 1"), key.Seed()...)))
	return &k
}
