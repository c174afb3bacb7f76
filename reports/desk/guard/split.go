package guard

import (
	"bufio"
	"net"
	"sync"
	"time"
)

// firstOfTLS is the first byte of every encrypted connection; no plain request begins with it.
const firstOfTLS = 0x16

// splitter is a listener that knows encrypted connections from plain ones by their first byte, so that one port answers both.
type splitter struct {
	net.Listener
	patience time.Duration // for the first byte
	ways     [2]chan net.Conn
	ended    chan struct{}
	err      error // why it ended
	stop     func() error
}

// The ways of a splitter.
const (
	plainWay = iota
	encryptedWay
)

func split(l net.Listener, patience time.Duration) *splitter {
	s := &splitter{Listener: l, patience: patience, ended: make(chan struct{}), stop: sync.OnceValue(l.Close)}
	for i := range s.ways {
		s.ways[i] = make(chan net.Conn)
	}
	go s.accept()
	return s
}

// accept takes connections until the listener is closed. Each waits for its first byte on its own.
func (s *splitter) accept() {
	for {
		c, err := s.Accept() // of the listener
		if err != nil {
			s.err = err
			close(s.ended)
			return
		}
		go s.sort(c)
	}
}

// Close closes the listener; it may be called by both of its ways.
func (s *splitter) Close() error { return s.stop() }

// sort waits for a connection's first byte.
func (s *splitter) sort(c net.Conn) {
	begun := &begunConn{Conn: c, read: bufio.NewReaderSize(c, 1)}
	late := time.AfterFunc(s.patience, func() { c.Close() }) //nolint:errcheck // nothing was sent on it
	first, err := begun.read.Peek(1)
	if !late.Stop() || err != nil {
		c.Close() //nolint:errcheck // nothing was sent on it
		return
	}
	way := plainWay
	if first[0] == firstOfTLS {
		way = encryptedWay
	}
	select {
	case s.ways[way] <- begun:
	case <-s.ended:
		c.Close() //nolint:errcheck // nothing was sent on it
	}
}

// begunConn is a connection of which the first byte was looked at.
type begunConn struct {
	net.Conn
	read *bufio.Reader
}

// Read reads what was looked at, then all that comes.
func (c *begunConn) Read(b []byte) (int, error) {
	if c.read.Buffered() > 0 {
		return c.read.Read(b[:min(len(b), c.read.Buffered())])
	}
	return c.Conn.Read(b)
}

// plain are the connections without encryption, and encrypted those that begin one.
func (s *splitter) plain() net.Listener     { return oneWay{s, s.ways[plainWay]} }
func (s *splitter) encrypted() net.Listener { return oneWay{s, s.ways[encryptedWay]} }

type oneWay struct {
	*splitter
	conns chan net.Conn
}

// Accept waits for the next connection of this way.
func (w oneWay) Accept() (net.Conn, error) {
	select {
	case c := <-w.conns:
		return c, nil
	case <-w.ended:
		return nil, w.err
	}
}
