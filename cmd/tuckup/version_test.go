package main

import (
	"context"
	"runtime"
	"runtime/debug"
	"strings"
	"testing"
)

func TestVersionNamesReleaseCommitAndGo(t *testing.T) {
	commit := debug.BuildSetting{Key: "vcs.revision", Value: "0123456789abcdef0123456789abcdef01234567"}
	for _, x := range []struct {
		release  string
		settings []debug.BuildSetting
		want     string
	}{
		{"2.0.0", []debug.BuildSetting{commit}, "2.0.0, commit 0123456789ab, go1.26.0"},
		{"", []debug.BuildSetting{commit, {Key: "vcs.modified", Value: "true"}}, "2.0, not released yet, commit 0123456789ab with changes, go1.26.0"},
		{"2.0.0", nil, "2.0.0, go1.26.0"},
		{"2.0.0", []debug.BuildSetting{{Key: "vcs.revision", Value: "0123"}, {Key: "vcs.modified", Value: "false"}}, "2.0.0, commit 0123, go1.26.0"},
	} {
		if got := versionWords(x.release, &debug.BuildInfo{GoVersion: "go1.26.0", Settings: x.settings}); got != x.want {
			t.Errorf("%+v: %q, want %q", x, got, x.want)
		}
	}
}

func TestVersionIsPrintedByTheProgram(t *testing.T) {
	code, out, said := program(context.Background(), "--version")
	if code != codeDone || said != "" || !strings.HasPrefix(out, "tuckup ") || !strings.HasSuffix(out, ", "+runtime.Version()+"\n") {
		t.Errorf("code %d, out %q, said %q", code, out, said)
	}
}
