package guard

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/netip"
	"testing"
	"time"
)

// own and other are addresses of this machine that stand for the desk's own machine and for another one on the network.
var (
	own   = netip.MustParseAddr("127.0.0.1")
	other = netip.MustParseAddr("127.0.0.2")
)

// town is a desk that is open to a network whose machines are the addresses 127.0.0.x.
type town struct {
	host string
	room *connections
}

func newTown(t *testing.T) *town {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	l, hosts, err := Listen(ctx, "127.0.0.1:0", true)
	if err != nil {
		t.Fatal(err)
	}
	g, err := New(Options{Now: time.Now, Random: &counting{}, Hosts: hosts, LAN: true})
	if err != nil {
		t.Fatal(err)
	}
	room := l.(*connections)
	isOwn := func(a netip.Addr) bool { return a == own }
	g.own, room.own = isOwn, isOwn
	ended := make(chan error, 1)
	go func() {
		ended <- g.Serve(ctx, l, http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, "page") }), DefaultTimes())
	}()
	t.Cleanup(func() {
		stop()
		if err := <-ended; err != nil {
			t.Error(err)
		}
	})
	return &town{hosts[0], room}
}

// call opens a connection from a machine.
func (d *town) call(t *testing.T, from netip.Addr) net.Conn {
	t.Helper()
	c, err := (&net.Dialer{LocalAddr: net.TCPAddrFromAddrPort(netip.AddrPortFrom(from, 0)), Timeout: 5 * time.Second}).Dial("tcp4", d.host)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close() })
	return c
}

// asks sends a request on a connection and returns the status of the answer, and whether the connection stays; 0 where
// it was hung up on.
func (d *town) asks(t *testing.T, c net.Conn) (status int, stays bool) {
	t.Helper()
	c.SetDeadline(time.Now().Add(20 * time.Second))
	fmt.Fprintf(c, "GET / HTTP/1.1\r\nHost: %s\r\n\r\n", d.host)
	r := bufio.NewReader(c)
	answer, err := http.ReadResponse(r, nil)
	if err != nil {
		return 0, false
	}
	io.Copy(io.Discard, answer.Body)
	answer.Body.Close()
	if !answer.Close {
		return answer.StatusCode, true
	}
	if _, err := r.ReadByte(); err != io.EOF {
		t.Errorf("the connection was to be closed, and then came %v", err)
	}
	return answer.StatusCode, false
}

// open is how many connections are open, of the desk's own machine and of others.
func (d *town) open() (ofOwn, ofOthers, machines int) {
	d.room.mu.Lock()
	defer d.room.mu.Unlock()
	return d.room.ofOwn, d.room.ofOthers, len(d.room.machines)
}

// A machine that is not paired asks on as many connections as it likes and leaves them open: none stays, and the
// owner is answered.
func TestAMachineThatIsNotPairedCannotKeepTheOwnerOut(t *testing.T) {
	d := newTown(t)
	for n := range 256 {
		if status, stays := d.asks(t, d.call(t, other)); stays {
			t.Fatalf("connection %d stays open after status %d", n, status)
		}
	}
	if status, stays := d.asks(t, d.call(t, own)); status != http.StatusOK || !stays {
		t.Errorf("the owner is answered with %d, and the connection stays: %v", status, stays)
	}
}

// Connections on which nothing is asked are held to so many by machine, and to so many by all others together.
func TestOtherMachinesHoldOnlyTheirRoom(t *testing.T) {
	d := newTown(t)
	for machine := range 12 { // of which six have room
		from := other
		for range machine {
			from = from.Next()
		}
		for range 2 * mostOfAMachine {
			d.call(t, from)
		}
	}
	// The last call of the owner is accepted after all of them.
	if status, _ := d.asks(t, d.call(t, own)); status != http.StatusOK {
		t.Fatalf("the owner is answered with %d", status)
	}
	if _, others, machines := d.open(); others > mostOthers || others < mostOfAMachine || machines > 12 {
		t.Errorf("%d connections of %d machines are open", others, machines)
	}
	d.room.mu.Lock()
	for m, n := range d.room.machines {
		if n > mostOfAMachine {
			t.Errorf("%s has %d connections", m, n)
		}
	}
	d.room.mu.Unlock()
}

func TestConnectionsLeaveTheirRoomToOthers(t *testing.T) {
	d := newTown(t)
	var all []net.Conn
	for range mostOwn {
		all = append(all, d.call(t, own))
	}
	if status, _ := d.asks(t, d.call(t, own)); status != 0 {
		t.Errorf("one more than the limit is answered with %d", status)
	}
	for _, c := range all {
		c.Close()
	}
	for limit := time.Now().Add(20 * time.Second); ; {
		if status, _ := d.asks(t, d.call(t, own)); status == http.StatusOK {
			break
		}
		if time.Now().After(limit) {
			t.Fatal("not answered when there is room again")
		}
		time.Sleep(10 * time.Millisecond)
	}
}

func TestRoomIsCountedExactly(t *testing.T) {
	l := limited(nil)
	at := func(a string) net.Addr { return net.TCPAddrFromAddrPort(netip.MustParseAddrPort(a)) }
	var leave []func()
	for machine := range 8 {
		for n := range mostOfAMachine + 1 {
			out, ok := l.enter(at(fmt.Sprintf("192.168.1.%d:%d", machine, 1000+n)))
			if want := n < mostOfAMachine && machine*mostOfAMachine+n < mostOthers; ok != want {
				t.Fatalf("machine %d, connection %d: let in %v", machine, n, ok)
			}
			if ok {
				leave = append(leave, out)
			}
		}
	}
	if _, ok := l.enter(at("127.0.0.1:1000")); !ok {
		t.Error("the owner has no room")
	}
	for _, out := range leave {
		out()
	}
	if l.ofOwn != 1 || l.ofOthers != 0 || len(l.machines) != 0 {
		t.Errorf("%d, %d, %v", l.ofOwn, l.ofOthers, l.machines)
	}
	if _, ok := l.enter(&net.UnixAddr{}); ok {
		t.Error("let in from nowhere")
	}
}
