package visit

import (
	"runtime"
	"testing"
)

// fake is a test that only says how it ended.
type fake struct {
	testing.TB
	ended string
}

func (f *fake) Helper() {}

func (f *fake) Skip(...any) {
	f.ended = "skipped"
	runtime.Goexit()
}

func (f *fake) Fatal(...any) {
	f.ended = "failed"
	runtime.Goexit()
}
