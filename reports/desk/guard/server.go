package guard

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"time"
)

// Times are how long the server waits for others.
type Times struct {
	Header time.Duration // for the head of a request
	Read   time.Duration // for all of a request
	Write  time.Duration // until an answer is sent; streams are exempt
	Idle   time.Duration // for the next request on a connection
	Stop   time.Duration // for answers that are under way when the desk is stopped
}

// DefaultTimes are those of the desk.
func DefaultTimes() Times {
	return Times{Header: 5 * time.Second, Read: 20 * time.Second, Write: 30 * time.Second, Idle: 2 * time.Minute, Stop: 15 * time.Second}
}

const maxHeader = 32 << 10 // bytes

type stopKey struct{}

// Stopping is closed when the desk that answers the request is being stopped; nil, which is never closed, for others.
func Stopping(ctx context.Context) <-chan struct{} {
	c, _ := ctx.Value(stopKey{}).(chan struct{})
	return c
}

// Serve answers requests until ctx is done. Then it takes no new ones, ends the streams, and waits for the answers
// that are under way: a form that was sent is saved and answered. It returns nil after a stop, else what failed.
func (g *Guard) Serve(ctx context.Context, l net.Listener, pages http.Handler, t Times) error {
	stopping := make(chan struct{})
	server := &http.Server{
		Handler:           g.Wrap(pages),
		ReadHeaderTimeout: t.Header, ReadTimeout: t.Read, WriteTimeout: t.Write, IdleTimeout: t.Idle, MaxHeaderBytes: maxHeader,
		ErrorLog: log.New(io.Discard, "", 0), // faults inside are told by catch; the rest is what strangers send
		// Not ctx: a form that is being saved when the desk is stopped is saved to the end.
		BaseContext: func(net.Listener) context.Context {
			return context.WithValue(context.Background(), stopKey{}, stopping)
		},
	}
	failed := make(chan error, 2)
	if g.o.Encryption == nil {
		go func() { failed <- server.Serve(l) }()
	} else {
		both := split(l, t.Header)
		go func() { failed <- server.Serve(both.plain()) }()
		go func() { failed <- server.Serve(tls.NewListener(both.encrypted(), g.o.Encryption.Config())) }()
	}
	select {
	case err := <-failed:
		return errors.Join(fmt.Errorf("serve the desk: %w", err), server.Close())
	case <-ctx.Done():
	}
	close(stopping)
	limit, cancel := context.WithTimeout(context.WithoutCancel(ctx), t.Stop)
	defer cancel()
	if err := server.Shutdown(limit); err != nil {
		return errors.Join(fmt.Errorf("stop the desk: %w", err), server.Close())
	}
	return nil
}
