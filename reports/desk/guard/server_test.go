package guard

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/color"
	"io"
	"net"
	"net/http"
	"net/netip"
	"strings"
	"testing"
	"time"

	qr "github.com/piglig/go-qr"

	"tuckup/kennel"
)

// serving is a desk that listens on a free port of this machine.
type serving struct {
	url, host string
	stop      context.CancelFunc
	ended     chan error
}

func serve(t *testing.T, pages http.HandlerFunc, times Times) *serving {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	l, hosts, err := Listen(ctx, "127.0.0.1:0", false)
	if err != nil {
		t.Fatal(err)
	}
	g, err := New(Options{Now: time.Now, Random: &counting{}, Hosts: hosts})
	if err != nil {
		t.Fatal(err)
	}
	s := &serving{"http://" + hosts[0], hosts[0], stop, make(chan error, 1)}
	go func() { s.ended <- g.Serve(ctx, l, pages, times) }()
	t.Cleanup(stop)
	return s
}

// ends waits for the desk to stop.
func (s *serving) ends(t *testing.T) error {
	t.Helper()
	select {
	case err := <-s.ended:
		return err
	case <-time.After(10 * time.Second):
		t.Fatal("the desk does not stop")
		return nil
	}
}

func TestOnlyThisMachineIsListenedTo(t *testing.T) {
	l, hosts, err := Listen(t.Context(), "127.0.0.1:0", false)
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	a := netip.MustParseAddrPort(l.Addr().String())
	if a.Addr() != netip.MustParseAddr("127.0.0.1") || fmt.Sprint(hosts) != fmt.Sprintf("[127.0.0.1:%d localhost:%d]", a.Port(), a.Port()) {
		t.Errorf("listens on %v, called %v", a, hosts)
	}
	for _, host := range privateAddresses() {
		if c, err := net.DialTimeout("tcp4", fmt.Sprintf("%s:%d", host, a.Port()), time.Second); err == nil {
			c.Close()
			t.Error("answers at", host)
		}
	}
}

func TestWithLANThePrivateAddressesAreNames(t *testing.T) {
	l, hosts, err := Listen(t.Context(), "127.0.0.1:0", true)
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	if want := 2 + len(privateAddresses()); len(hosts) != want || !strings.HasPrefix(hosts[0], "127.0.0.1:") {
		t.Errorf("called %v, want %d names", hosts, want)
	}
	for _, h := range hosts[2:] {
		if a, err := netip.ParseAddrPort(h); err != nil || !a.Addr().IsPrivate() {
			t.Error("called", h)
		}
	}
}

func TestAnAddressThatOthersCouldReachIsRefused(t *testing.T) {
	taken, _, err := Listen(t.Context(), "127.0.0.1:0", false)
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	for _, c := range []struct {
		address, what string
		lan           bool
	}{
		{"0.0.0.0:8420", "other machines", false},
		{"192.168.1.7:8420", "other machines", false},
		{"127.0.0.2:8420", "other machines", false},
		{"0.0.0.0:8420", "private network", true},
		{"8.8.4.4:8420", "private network", true},
		{"[::1]:8420", "four numbers", false},
		{"[::]:8420", "four numbers", true},
		{"example.org:8420", "four numbers", true},
		{":8420", "four numbers", false},
		{"127.0.0.1", "address and a port", false},
		{"8420", "address and a port", false},
		{"127.0.0.1:70000", "65535", false},
		{"127.0.0.1:-1", "65535", false},
		{"127.0.0.1:http", "65535", false},
		{"127.0.0.1:08420", "65535", false},
		{"10.255.255.254:8420", "can't be listened on", true},
		{taken.Addr().String(), "taken", false},
	} {
		l, _, err := Listen(t.Context(), c.address, c.lan)
		if err == nil {
			l.Close()
		}
		var input *kennel.InputError
		if !errors.As(err, &input) || !strings.Contains(input.What, c.what) || input.Try == "" || input.Field != "--listen" || input.Value != c.address {
			t.Errorf("%s, lan %t: %v", c.address, c.lan, err)
		}
	}
}

// A form that is being saved when the desk is stopped is saved to the end and answered; a new one finds nobody.
func TestAStopLosesNothing(t *testing.T) {
	begun, goOn := make(chan struct{}), make(chan struct{})
	saved := ""
	s := serve(t, func(w http.ResponseWriter, r *http.Request) {
		close(begun)
		<-goOn
		if r.Context().Err() == nil {
			saved = r.FormValue("note")
		}
		io.WriteString(w, "saved")
	}, DefaultTimes())
	answer := make(chan string, 1)
	go func() {
		r, _ := http.NewRequest("POST", s.url+"/today", strings.NewReader("note=powder"))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Origin", s.url)
		resp, err := http.DefaultTransport.RoundTrip(r)
		if err != nil {
			answer <- err.Error()
			return
		}
		defer resp.Body.Close()
		b, _ := io.ReadAll(resp.Body)
		answer <- string(b)
	}()
	<-begun
	s.stop()
	for deadline := time.Now().Add(5 * time.Second); ; time.Sleep(5 * time.Millisecond) {
		c, err := net.Dial("tcp4", s.host)
		if err != nil {
			break
		}
		c.Close()
		if time.Now().After(deadline) {
			t.Fatal("still takes new requests")
		}
	}
	select {
	case err := <-s.ended:
		t.Fatal("did not wait for the form:", err)
	case <-time.After(50 * time.Millisecond):
	}
	close(goOn)
	if got := <-answer; got != "saved" || saved != "powder" {
		t.Errorf("answered %q, saved %q", got, saved)
	}
	if err := s.ends(t); err != nil {
		t.Error(err)
	}
}

func TestAStopDoesNotWaitForEver(t *testing.T) {
	begun := make(chan struct{})
	times := DefaultTimes()
	times.Stop = 100 * time.Millisecond
	s := serve(t, func(_ http.ResponseWriter, r *http.Request) {
		close(begun)
		<-r.Context().Done()
	}, times)
	go http.Get(s.url)
	<-begun
	s.stop()
	if err := s.ends(t); !errors.Is(err, context.DeadlineExceeded) {
		t.Error("an answer that never came was no error:", err)
	}
}

func TestAStreamOutlivesTheTimeOutsAndEndsWithTheDesk(t *testing.T) {
	times := DefaultTimes()
	times.Read, times.Write = 150*time.Millisecond, 150*time.Millisecond
	s := serve(t, func(w http.ResponseWriter, r *http.Request) {
		stream, err := OpenStream(w, r)
		if err != nil {
			t.Error(err)
			return
		}
		for i := 0; ; i++ {
			if err := stream.Send("progress", fmt.Sprintf("step %d\nof many", i)); err != nil {
				t.Error("after", i, "steps:", err)
				return
			}
			select {
			case <-stream.Done():
				return
			case <-time.After(50 * time.Millisecond):
			}
		}
	}, times)
	resp, err := http.Get(s.url + "/plan/events")
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	lines := bufio.NewScanner(resp.Body)
	steps := 0
	for steps < 12 && lines.Scan() { // 600 ms, four times the time-outs
		if strings.HasPrefix(lines.Text(), "data: step ") {
			steps++
		}
	}
	if steps < 12 {
		t.Fatal("the stream ended after", steps, "steps:", lines.Err())
	}
	s.stop()
	if err := s.ends(t); err != nil {
		t.Error("the stream kept the desk open:", err)
	}
}

func TestAStreamEndsWhenItsReaderGoes(t *testing.T) {
	ended := make(chan struct{})
	s := serve(t, func(w http.ResponseWriter, r *http.Request) {
		stream, err := OpenStream(w, r)
		if err != nil {
			t.Error(err)
			return
		}
		<-stream.Done()
		close(ended)
	}, DefaultTimes())
	ctx, leave := context.WithCancel(t.Context())
	r, _ := http.NewRequestWithContext(ctx, "GET", s.url, nil)
	if _, err := http.DefaultClient.Do(r); err != nil {
		t.Fatal(err)
	}
	leave()
	select {
	case <-ended:
	case <-time.After(5 * time.Second):
		t.Error("still streaming to nobody")
	}
}

func TestTextInAStreamCanForgeNoEvent(t *testing.T) {
	var b recorder
	s := &Stream{w: &b, flow: http.NewResponseController(&b)}
	for _, data := range []string{"a\n\nevent: go\ndata: /evil", "a\r\revent: go\rdata: /evil", "a\r\n\r\nevent: go"} {
		b.Reset()
		if err := s.Send("progress", data); err != nil {
			t.Fatal(err)
		}
		for line := range strings.SplitSeq(strings.TrimSuffix(strings.TrimPrefix(b.String(), "event: progress\n"), "\n\n"), "\n") {
			if !strings.HasPrefix(line, "data: ") || strings.Contains(line, "\r") {
				t.Errorf("%q is sent as %q", data, b.String())
			}
		}
	}
}

type recorder struct{ bytes.Buffer }

func (r *recorder) Header() http.Header { return http.Header{} }
func (r *recorder) WriteHeader(int)     {}
func (r *recorder) Flush()              {}

// slowly opens a connection, sends what is given, and returns how long the desk keeps it open.
func slowly(t *testing.T, s *serving, send string) time.Duration {
	t.Helper()
	c, err := net.Dial("tcp4", s.host)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	begin := time.Now()
	io.WriteString(c, strings.ReplaceAll(send, "HOST", s.host))
	c.SetReadDeadline(begin.Add(5 * time.Second))
	io.Copy(io.Discard, c)
	return time.Since(begin)
}

func TestWhoNeverFinishesARequestIsHungUpOn(t *testing.T) {
	times := Times{Header: 100 * time.Millisecond, Read: 300 * time.Millisecond, Write: 300 * time.Millisecond, Idle: 100 * time.Millisecond, Stop: time.Second}
	s := serve(t, func(w http.ResponseWriter, r *http.Request) {
		if _, err := io.ReadAll(r.Body); err != nil {
			http.Error(w, "too slow", http.StatusRequestTimeout)
		}
	}, times)
	for what, send := range map[string]string{
		"half a head": "GET / HTTP/1.1\r\nHost: HOST\r\nX-",
		"half a form": "POST / HTTP/1.1\r\nHost: HOST\r\nOrigin: http://HOST\r\nContent-Length: 100\r\n\r\nnote=",
		"nothing":     "",
	} {
		if took := slowly(t, s, send); took > 3*time.Second {
			t.Errorf("%s is kept open %v", what, took)
		}
	}
}

func TestAConnectionThatAsksNothingMoreIsClosed(t *testing.T) {
	times := DefaultTimes()
	times.Idle = 100 * time.Millisecond
	s := serve(t, func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, "page") }, times)
	if took := slowly(t, s, "GET / HTTP/1.1\r\nHost: HOST\r\n\r\n"); took > 3*time.Second {
		t.Error("kept open", took)
	}
}

func TestWhoNeverReadsAnAnswerIsHungUpOn(t *testing.T) {
	times := DefaultTimes()
	times.Write = 200 * time.Millisecond
	failed := make(chan error, 1)
	s := serve(t, func(w http.ResponseWriter, _ *http.Request) {
		var err error
		for i := 0; i < 2000 && err == nil; i++ { // far more than the buffers between
			_, err = w.Write(make([]byte, 64<<10))
		}
		failed <- err
	}, times)
	c, err := net.Dial("tcp4", s.host)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	fmt.Fprintf(c, "GET / HTTP/1.1\r\nHost: %s\r\n\r\n", s.host)
	select {
	case err := <-failed:
		if err == nil {
			t.Error("all was sent to nobody")
		}
	case <-time.After(5 * time.Second):
		t.Error("still sending")
	}
}

func TestTheDeskOwnTimesAreSet(t *testing.T) {
	for what, d := range map[string]time.Duration{
		"header": DefaultTimes().Header, "read": DefaultTimes().Read, "write": DefaultTimes().Write, "idle": DefaultTimes().Idle, "stop": DefaultTimes().Stop,
	} {
		if d <= 0 || d > 5*time.Minute {
			t.Errorf("%s waits %v", what, d)
		}
	}
}

func TestAHeadThatIsTooLongIsRefused(t *testing.T) {
	s := serve(t, func(http.ResponseWriter, *http.Request) { t.Error("reached") }, DefaultTimes())
	r, _ := http.NewRequest("GET", s.url, nil)
	r.Header.Set("X-Long", strings.Repeat("a", 2*maxHeader))
	resp, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	if resp.StatusCode != http.StatusRequestHeaderFieldsTooLarge {
		t.Error("status", resp.StatusCode)
	}
}

// A reader of such codes finds in the drawing what was drawn.
func TestACodeForTheCameraReadsBack(t *testing.T) {
	const text = "http://192.168.1.7:8420/pair?code=ABCD-EF12"
	var b bytes.Buffer
	if err := WriteQR(&b, text); err != nil {
		t.Fatal(err)
	}
	rows := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
	const scale = 4
	width := len([]rune(rows[0]))
	picture := image.NewGray(image.Rect(0, 0, width*scale, 2*len(rows)*scale))
	for y := range 2 * len(rows) * scale {
		for x := range width * scale {
			letter := []rune(rows[y/scale/2])[x/scale]
			light := letter == '█' || letter == '▀' && y/scale%2 == 0 || letter == '▄' && y/scale%2 == 1
			if light {
				picture.SetGray(x, y, color.Gray{Y: 255})
			}
		}
	}
	if got, err := qr.Decode(picture); err != nil || got != text {
		t.Errorf("reads %q, %v", got, err)
	}
	if width > 72 {
		t.Error("is", width, "columns wide")
	}
	if err := WriteQR(io.Discard, strings.Repeat("a", 5000)); err == nil {
		t.Error("5000 letters were drawn")
	}
}
