package main

import (
	"fmt"
	"runtime/debug"
	"strings"
)

// release is the version of a program that was built to be handed out: -ldflags "-X main.release=2.0.0" sets it.
var release string

// notReleased is what a program that was not is called.
const notReleased = "2.0, not released yet"

// commitLength is how many digits of a commit are enough to find it.
const commitLength = 12

// versionWords say which program this is: its version, the commit that it was built from where that is known, and the Go that built it.
func versionWords(release string, built *debug.BuildInfo) string {
	if release == "" {
		release = notReleased
	}
	parts := []string{release}
	var commit, changed string
	for _, s := range built.Settings {
		switch {
		case s.Key == "vcs.revision":
			commit = "commit " + s.Value[:min(len(s.Value), commitLength)]
		case s.Key == "vcs.modified" && s.Value == "true":
			changed = " with changes"
		}
	}
	if commit != "" {
		parts = append(parts, commit+changed)
	}
	return strings.Join(append(parts, built.GoVersion), ", ")
}

// version is what --version prints of the program that runs.
func version() string {
	built, ok := debug.ReadBuildInfo()
	if !ok {
		built = &debug.BuildInfo{GoVersion: "Go unknown"}
	}
	return fmt.Sprintf("tuckup %s\n", versionWords(release, built))
}
