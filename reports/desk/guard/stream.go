package guard

import (
	"errors"
	"fmt"
	"net/http"
	"strings"
	"time"
)

// Stream tells a page what happens, as server-sent events. It is used by one goroutine.
type Stream struct {
	w    http.ResponseWriter
	flow *http.ResponseController
	done chan struct{}
}

// OpenStream begins a stream as the answer to a request and takes it out of the server's time-out for answers. An answer that
// can't be flushed is an error.
func OpenStream(w http.ResponseWriter, r *http.Request) (*Stream, error) {
	s := &Stream{w: w, flow: http.NewResponseController(w), done: make(chan struct{})}
	if err := s.flow.SetWriteDeadline(time.Time{}); err != nil && !errors.Is(err, http.ErrNotSupported) {
		return nil, fmt.Errorf("open a stream: %w", err)
	}
	go func() {
		select {
		case <-r.Context().Done():
		case <-Stopping(r.Context()):
		}
		close(s.done)
	}()
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	w.WriteHeader(http.StatusOK)
	if err := s.flow.Flush(); err != nil {
		return nil, fmt.Errorf("open a stream: %w", err)
	}
	return s, nil
}

// Done is closed when the reader has gone or the desk is being stopped.
func (s *Stream) Done() <-chan struct{} { return s.done }

// Send tells one event. The name is the program's own; data may be any text, of any number of lines. An error means
// that the reader has gone.
func (s *Stream) Send(event, data string) error {
	var b strings.Builder
	fmt.Fprintf(&b, "event: %s\n", event)
	lines := strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(data)
	for line := range strings.SplitSeq(lines, "\n") {
		fmt.Fprintf(&b, "data: %s\n", line)
	}
	b.WriteByte('\n')
	if _, err := s.w.Write([]byte(b.String())); err != nil {
		return fmt.Errorf("send an event: %w", err)
	}
	return s.flow.Flush()
}
