package guard

import (
	"net"
	"net/netip"
	"sync"
)

// How many connections are open at once; one more is hung up on. The desk's own machine and all others have room apart, so
// that no other machine can take the owner's. A browser holds six and one for each stream.
const (
	mostOwn        = 256 // of the desk's own machine
	mostOthers     = 192 // of all other machines together
	mostOfAMachine = 32  // of one other machine
)

// connections is a listener that caps the connections of each machine.
type connections struct {
	net.Listener
	own func(netip.Addr) bool // is this the desk's own machine?

	mu       sync.Mutex
	ofOwn    int
	ofOthers int
	machines map[netip.Prefix]int // open connections of other machines; those with none are forgotten
}

func limited(l net.Listener) *connections {
	return &connections{Listener: l, own: netip.Addr.IsLoopback, machines: map[netip.Prefix]int{}}
}

// Accept waits for the next connection that there is room for.
func (l *connections) Accept() (net.Conn, error) {
	for {
		c, err := l.Listener.Accept()
		if err != nil {
			return nil, err
		}
		leave, ok := l.enter(c.RemoteAddr())
		if ok {
			return &connection{Conn: c, leave: sync.OnceFunc(leave)}, nil
		}
		c.Close() //nolint:errcheck // nothing was sent on it
	}
}

// enter counts a connection from the address, if there is room for it; leave takes it off again.
func (l *connections) enter(at net.Addr) (leave func(), ok bool) {
	from, err := netip.ParseAddrPort(at.String())
	if err != nil {
		return nil, false
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	addr := from.Addr().Unmap().WithZone("")
	if l.own(addr) {
		if l.ofOwn >= mostOwn {
			return nil, false
		}
		l.ofOwn++
		return func() { l.mu.Lock(); l.ofOwn--; l.mu.Unlock() }, true
	}
	machine, err := machineOf(addr)
	if err != nil || l.ofOthers >= mostOthers || l.machines[machine] >= mostOfAMachine {
		return nil, false
	}
	l.ofOthers++
	l.machines[machine]++
	return func() {
		l.mu.Lock()
		defer l.mu.Unlock()
		l.ofOthers--
		if l.machines[machine]--; l.machines[machine] == 0 {
			delete(l.machines, machine)
		}
	}, true
}

// connection leaves its room to another when it is closed.
type connection struct {
	net.Conn
	leave func()
}

// Close closes the connection.
func (c *connection) Close() error {
	err := c.Conn.Close()
	c.leave()
	return err
}
