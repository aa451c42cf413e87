package main

import (
	"bytes"
	"crypto/ed25519"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"io"
	"math/big"
	"net"
	"os"
	"path/filepath"
	"sync"
	"time"
)

// The bare loop is what durable, encrypted delivery costs on this machine
// without a product around it: append and sync, send over TLS on TCP, append
// and sync, answer one byte.

const (
	bareFile = "bare-loop.log" // in the device's own folder, on the same disk as its log
	bareName = "bare.invalid"
)

// hearer is the listening side of the bare loop.
type hearer struct {
	listener net.Listener
	ended    sync.WaitGroup
}

// hear listens for one connection after another until stopHearing.
func (s *benchSubject) hear(a *benchAnswer) error {
	s.stopHearing()
	cert, der, err := bareCertificate()
	if err != nil {
		return err
	}
	l, err := tls.Listen("tcp", "127.0.0.1:0", &tls.Config{Certificates: []tls.Certificate{cert}, MinVersion: tls.VersionTLS13})
	if err != nil {
		return err
	}
	a.Address, a.Certificate = l.Addr().String(), der
	h := &hearer{listener: l}
	h.ended.Go(func() { // joined by stopHearing
		for {
			c, err := l.Accept()
			if err != nil {
				return
			}
			_ = answerBare(c, s.dir) // the other side notices
			_ = c.Close()
		}
	})
	s.hearer = h
	return nil
}

func (s *benchSubject) stopHearing() {
	if s.hearer != nil {
		_ = s.hearer.listener.Close()
		s.hearer.ended.Wait()
		s.hearer = nil
	}
}

// answerBare reads the length of a message and then messages of that length.
func answerBare(c net.Conn, dir string) error {
	var head [2]byte
	if _, err := io.ReadFull(c, head[:]); err != nil {
		return err
	}
	file, err := openBare(dir)
	if err != nil {
		return err
	}
	defer file.Close()
	message := make([]byte, int(head[0])<<8|int(head[1]))
	for {
		if _, err := io.ReadFull(c, message); err != nil {
			return err
		}
		if err := appendBare(file, message); err != nil {
			return err
		}
		if _, err := c.Write([]byte{1}); err != nil {
			return err
		}
	}
}

// bare makes Count rounds and answers with how long each took.
func (s *benchSubject) bare(o benchOrder, a *benchAnswer) error {
	known, err := x509.ParseCertificate(o.Certificate)
	if err != nil {
		return err
	}
	pool := x509.NewCertPool()
	pool.AddCert(known)
	c, err := tls.Dial("tcp", o.Address, &tls.Config{RootCAs: pool, ServerName: bareName, MinVersion: tls.VersionTLS13})
	if err != nil {
		return err
	}
	defer c.Close()
	file, err := openBare(s.dir)
	if err != nil {
		return err
	}
	defer file.Close()
	message := bytes.Repeat([]byte{'x'}, max(1, o.Plan.Size))
	if _, err := c.Write([]byte{byte(len(message) >> 8), byte(len(message))}); err != nil {
		return err
	}
	for range o.Count {
		began := time.Now()
		if err := roundBare(c, file, message); err != nil {
			return err
		}
		a.Samples = append(a.Samples, time.Since(began).Microseconds())
	}
	return nil
}

func roundBare(c net.Conn, file *os.File, message []byte) error {
	if err := appendBare(file, message); err != nil {
		return err
	}
	if _, err := c.Write(message); err != nil {
		return err
	}
	var answer [1]byte
	if _, err := io.ReadFull(c, answer[:]); err != nil {
		return fmt.Errorf("the bare loop got no answer: %w", err)
	}
	return nil
}

func openBare(dir string) (*os.File, error) {
	return os.OpenFile(filepath.Join(dir, bareFile), os.O_CREATE|os.O_WRONLY|os.O_APPEND, 0o600)
}

func appendBare(file *os.File, message []byte) error {
	if _, err := file.Write(message); err != nil {
		return err
	}
	return file.Sync()
}

// bareCertificate makes a certificate for this run only.
func bareCertificate() (tls.Certificate, []byte, error) {
	public, private, err := ed25519.GenerateKey(rand.Reader)
	if err != nil {
		return tls.Certificate{}, nil, err
	}
	now := time.Now()
	like := &x509.Certificate{
		SerialNumber: big.NewInt(1), DNSNames: []string{bareName},
		NotBefore: now.Add(-time.Hour), NotAfter: now.Add(24 * time.Hour),
		IsCA: true, BasicConstraintsValid: true, KeyUsage: x509.KeyUsageDigitalSignature | x509.KeyUsageCertSign,
	}
	der, err := x509.CreateCertificate(rand.Reader, like, like, public, private)
	if err != nil {
		return tls.Certificate{}, nil, errors.Join(errors.New("the bare loop's certificate"), err)
	}
	return tls.Certificate{Certificate: [][]byte{der}, PrivateKey: private}, der, nil
}
