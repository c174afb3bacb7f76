package main

import (
	"bytes"
	"debug/buildinfo"
	"debug/elf"
	"debug/macho"
	"debug/pe"
	"errors"
	"fmt"
	"runtime/debug"
	"slices"
	"strings"
)

// check opens an archive and looks for all that it must hold.
func (r *release) check(t target, archive []byte) error {
	files, err := read(bytes.NewReader(archive), int64(len(archive)), t.ending(), r.base(t))
	if err != nil {
		return err
	}
	var wrong []error
	for _, name := range []string{"LICENSE.txt", "READ-ME-FIRST.txt", "THIRD-PARTY.txt"} {
		if len(files[name].data) == 0 {
			wrong = append(wrong, fmt.Errorf("%s is missing", name))
		}
	}
	programs := map[string][]string{"windows": {windowsProgram, windowsDesk}, "darwin": {macProgram}, "linux": {linuxProgram}}[t.system]
	for _, name := range programs {
		f := files[name]
		switch {
		case len(f.data) == 0:
			wrong = append(wrong, fmt.Errorf("%s is missing", name))
			continue
		case !f.runs:
			wrong = append(wrong, fmt.Errorf("%s can't be run", name))
		}
		if err := errors.Join(checkProgram(t, name, f.data), checkBuild(t, f.data, string(files["THIRD-PARTY.txt"].data))); err != nil {
			wrong = append(wrong, fmt.Errorf("%s: %w", name, err))
		}
	}
	if t.system == "darwin" {
		for _, name := range []string{"tuckup.app/Contents/Info.plist", "tuckup.app/Contents/Resources/tuckup.icns"} {
			if len(files[name].data) == 0 {
				wrong = append(wrong, fmt.Errorf("%s is missing", name))
			}
		}
	}
	return errors.Join(wrong...)
}

// checkProgram looks whether a program is one of the system: its processor, and on Windows its icon, and whether it opens a console.
func checkProgram(t target, name string, data []byte) error {
	r := bytes.NewReader(data)
	switch t.system {
	case "windows":
		f, err := pe.NewFile(r)
		if err != nil {
			return err
		}
		const withoutConsole, withConsole = 2, 3
		want := uint16(withConsole)
		if name == windowsDesk {
			want = withoutConsole
		}
		head, ok := f.OptionalHeader.(*pe.OptionalHeader64)
		switch {
		case !ok || f.Machine != machines[t.arch].machine:
			return fmt.Errorf("is for the machine %#x", f.Machine)
		case head.Subsystem != want:
			return fmt.Errorf("is of the subsystem %d, not %d", head.Subsystem, want)
		case f.Section(".rsrc") == nil:
			return errors.New("has no icon")
		}
	case "darwin":
		f, err := macho.NewFile(r)
		if err != nil {
			return err
		}
		if f.Cpu != map[string]macho.Cpu{"amd64": macho.CpuAmd64, "arm64": macho.CpuArm64}[t.arch] {
			return fmt.Errorf("is for %s", f.Cpu)
		}
	default:
		f, err := elf.NewFile(r)
		if err != nil {
			return err
		}
		if f.Machine != map[string]elf.Machine{"amd64": elf.EM_X86_64, "arm64": elf.EM_AARCH64}[t.arch] {
			return fmt.Errorf("is for %s", f.Machine)
		}
		if libraries, err := f.ImportedLibraries(); err == nil && len(libraries) > 0 {
			return fmt.Errorf("needs %s", strings.Join(libraries, ", "))
		}
	}
	return nil
}

// checkBuild holds the licences against what the program itself says it was made of.
func checkBuild(t target, data []byte, licences string) error {
	info, err := buildinfo.Read(bytes.NewReader(data))
	if err != nil {
		return err
	}
	for _, m := range info.Deps {
		if !strings.Contains(licences, "\n"+m.Path+" "+m.Version+"\n") {
			return fmt.Errorf("the licence of %s %s is missing", m.Path, m.Version)
		}
	}
	for _, s := range info.Settings {
		if want := map[string]string{"GOOS": t.system, "GOARCH": t.arch, "CGO_ENABLED": "0", "-trimpath": "true"}[s.Key]; want != "" && s.Value != want {
			return fmt.Errorf("was built with %s=%s", s.Key, s.Value)
		}
	}
	if len(info.Deps) == 0 || !slices.ContainsFunc(info.Settings, func(s debug.BuildSetting) bool { return s.Key == "GOOS" }) {
		return errors.New("does not say what it was made of")
	}
	return nil
}
