package main

import (
	"bytes"
	"context"
	"debug/pe"
	"encoding/binary"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
)

func TestWhatIsPackedComesOutOfTheArchive(t *testing.T) {
	files := []file{{"tuckup.app/Contents/MacOS/tuckup", []byte("a program"), true}, {"LICENSE.txt", []byte("free\n"), false}}
	for _, ending := range []string{".zip", ".tar.gz"} {
		var b, again bytes.Buffer
		if err := write(&b, ending, "tuckup-2.0.0", files); err != nil {
			t.Fatal(err)
		}
		if err := write(&again, ending, "tuckup-2.0.0", files); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
			t.Errorf("%s: the same files give other bytes: %v", ending, err)
		}
		got, err := read(bytes.NewReader(b.Bytes()), int64(b.Len()), ending, "tuckup-2.0.0")
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			if !reflect.DeepEqual(got[f.name], f) {
				t.Errorf("%s: %s came out as %+v", ending, f.name, got[f.name])
			}
		}
		if _, err := read(bytes.NewReader(b.Bytes()), int64(b.Len()), ending, "other"); err == nil {
			t.Errorf("%s: files outside the folder are not found out", ending)
		}
	}
}

func TestAnArchiveThatLacksSomethingIsNotReleased(t *testing.T) {
	r := release{version: "2.0.0"}
	for _, to := range targets() {
		var b bytes.Buffer
		if err := write(&b, to.ending(), r.base(to), []file{{"LICENSE.txt", []byte("x"), false}, {linuxProgram, []byte("no program"), false}}); err != nil {
			t.Fatal(err)
		}
		err := r.check(to, b.Bytes())
		if err == nil {
			t.Fatalf("%s: nothing is found", to)
		}
		for _, want := range []string{"READ-ME-FIRST.txt is missing", "THIRD-PARTY.txt is missing"} {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("%s: %q is not said in %v", to, want, err)
			}
		}
		if to.system == "linux" && !strings.Contains(err.Error(), "can't be run") {
			t.Errorf("%s: %v", to, err)
		}
		if to.system != "linux" && strings.Count(err.Error(), "is missing") < 3 {
			t.Errorf("%s: %v", to, err)
		}
	}
}

func TestAWrongVersionOrSystemIsRefused(t *testing.T) {
	for _, r := range []struct{ version, only string }{{"", ""}, {"2", ""}, {"v2.0.0", ""}, {"2.0.0; rm", ""}, {"2.0.0", "plan9/amd64"}} {
		out := filepath.Join(t.TempDir(), "release")
		err := (&release{version: r.version, out: out}).pack(t.Context(), r.only)
		if err == nil || !strings.Contains(err.Error(), "\nTry: ") {
			t.Errorf("%+v: %v", r, err)
		}
		if _, err := os.Stat(out); err == nil {
			t.Errorf("%+v: something was written", r)
		}
	}
}

// Every module that is linked is there with its licence, and so are Go and the style of the pages.
func TestTheLicencesOfAllThatIsLinkedAreThere(t *testing.T) {
	t.Chdir("../..")
	text, err := licencesOf(t.Context(), program)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"\nmodernc.org/sqlite v", "\ngonum.org/v1/gonum v", "\ngithub.com/spf13/cobra v", "\ngithub.com/inconshreveable/mousetrap v", "\ngithub.com/gofrs/flock v",
		"\nThe Go programming language", "\nPico CSS", "Copyright (c) 2019-2024 Pico", "Permission is hereby granted", "Apache License",
	} {
		if !strings.Contains(string(text), want) {
			t.Errorf("there is no %q", want)
		}
	}
	for _, test := range []string{"chromedp", "go-internal", "pgregory.net/rapid"} {
		if strings.Contains(string(text), test) {
			t.Errorf("%s is only in the tests", test)
		}
	}
}

func TestAModuleWithoutALicenceIsFound(t *testing.T) {
	dir := t.TempDir()
	write := func(name string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("text"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("main.go")
	write("license.go")
	write("README.md")
	if files, err := licencesIn(dir); err != nil || len(files) != 0 {
		t.Errorf("%v %v", files, err)
	}
	for _, name := range []string{"LICENSE", "COPYING.txt", "NOTICE", "LICENSE-MIT"} {
		write(name)
	}
	if files, err := licencesIn(dir); err != nil || len(files) != 4 {
		t.Errorf("%v %v", files, err)
	}
}

func TestTheAppFolderHasAVersionAndAnIcon(t *testing.T) {
	if p := plist("2.1.0-rc1"); !strings.Contains(p, "<key>CFBundleShortVersionString</key><string>2.1.0</string>") || !strings.Contains(p, "<key>LSUIElement</key><true/>") {
		t.Error(p)
	}
	b := icns(icon)
	if string(b[:4]) != "icns" || int(binary.BigEndian.Uint32(b[4:])) != len(b) || string(b[8:12]) != "ic09" || int(binary.BigEndian.Uint32(b[12:])) != len(b)-8 {
		t.Errorf("% x", b[:16])
	}
	if c, err := png.DecodeConfig(bytes.NewReader(b[16:])); err != nil || c.Width != 512 || c.Height != 512 {
		t.Errorf("%+v %v", c, err)
	}
}

// The go command links the icon into a program of Windows, and the program's tree of resources leads to each size of it.
func TestWindowsProgramsCarryTheIcon(t *testing.T) {
	if testing.Short() {
		t.Skip("builds Go's runtime for Windows, which can't be made smaller")
	}
	for _, arch := range []string{"amd64", "arm64"} {
		dir := t.TempDir()
		object, err := windowsIcon(icon, arch)
		if err != nil {
			t.Fatal(err)
		}
		for name, data := range map[string]string{"go.mod": "module small\n", "main.go": "package main\n\nfunc main() {}\n", "icon_windows_" + arch + ".syso": string(object)} {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		c := exec.CommandContext(context.Background(), "go", "build", "-o", "small.exe", ".")
		c.Dir, c.Env = dir, append(os.Environ(), "GOOS=windows", "GOARCH="+arch, "CGO_ENABLED=0", "GOFLAGS=-mod=mod", "GOWORK=off")
		if out, err := c.CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		f, err := pe.Open(filepath.Join(dir, "small.exe"))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		s := f.Section(".rsrc")
		if s == nil {
			t.Fatal("there are no resources")
		}
		data, err := s.Data()
		if err != nil {
			t.Fatal(err)
		}
		var sizes []int
		group := 0
		leaves(data, 0, nil, func(path []uint32, at, size uint32) {
			body := data[at-s.VirtualAddress:][:size]
			switch path[0] {
			case kindIcon:
				c, err := png.DecodeConfig(bytes.NewReader(body))
				if err != nil {
					t.Errorf("icon %d: %v", path[1], err)
				}
				sizes = append(sizes, c.Width)
			case kindIcons:
				group = int(binary.LittleEndian.Uint16(body[4:]))
			}
		})
		if !slices.Equal(sizes, iconSizes) || group != len(iconSizes) {
			t.Errorf("%s: the sizes are %v, the group names %d", arch, sizes, group)
		}
	}
	if _, err := windowsIcon(icon, "386"); err == nil {
		t.Error("a machine that is not known gets an icon")
	}
}

// leaves walks a tree of resources.
func leaves(data []byte, at uint32, path []uint32, leaf func(path []uint32, at, size uint32)) {
	le := binary.LittleEndian
	entries := int(le.Uint16(data[at+12:])) + int(le.Uint16(data[at+14:]))
	for i := range entries {
		e := data[int(at)+directoryHead+directoryEntry*i:]
		id, to := le.Uint32(e), le.Uint32(e[4:])
		if to&below != 0 {
			leaves(data, to&^below, append(slices.Clone(path), id), leaf)
			continue
		}
		leaf(append(slices.Clone(path), id), le.Uint32(data[to:]), le.Uint32(data[to+4:]))
	}
}

func TestAPictureIsShrunkToItsMean(t *testing.T) {
	large, err := png.Decode(bytes.NewReader(icon))
	if err != nil {
		t.Fatal(err)
	}
	small := shrunk(large, 16)
	if r, g, b, a := small.At(8, 2).RGBA(); r>>8 != 0x14 || g>>8 != 0x53 || b>>8 != 0x2d || a>>8 != 255 {
		t.Errorf("%x %x %x %x", r, g, b, a)
	}
	if _, _, _, a := small.At(0, 0).RGBA(); a>>8 > 200 {
		t.Errorf("the corner is not round: %x", a)
	}
}
