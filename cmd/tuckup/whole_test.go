package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/fields"
	"tuckup/kennel/filled"
	"tuckup/kennel/text"
)

// filledBook is a book in which every field of the kennel is set, and a way to run commands on it.
func filledBook(t *testing.T, round int) (k kennel.Kennel, run func(args ...string) string) {
	t.Helper()
	k, err := filled.Kennel(round)
	if err != nil {
		t.Fatal(err)
	}
	data, err := text.Write(k)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file, at := filepath.Join(dir, "kennel.yaml"), filepath.Join(dir, "book.db")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	run = func(args ...string) string {
		t.Helper()
		code, out, said := program(context.Background(), append(args, "--book", at)...)
		if code != codeDone {
			t.Fatalf("tuckup %s: %d, %s", strings.Join(args, " "), code, said)
		}
		return out
	}
	run("import", file)
	return k, run
}

// exported is the kennel of the book.
func exported(t *testing.T, run func(...string) string) kennel.Kennel {
	t.Helper()
	k, _, err := text.Read("export", []byte(run("export")))
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func layersSaid(layers []kennel.Layer) string {
	words := make([]string, len(layers))
	for i, l := range layers {
		words[i] = fmt.Sprintf("%g %s", l.Share, l.Pulled)
	}
	return strings.Join(words, " ")
}

// dogArgs say all of a dog that flags can say.
func dogArgs(d kennel.Dog) []string {
	last := d.Here[len(d.Here)-1]
	args := []string{"--from", last.From.String(), "--to", last.To.String(), "--coat", layersSaid(d.All)}
	for _, f := range fields.Dog.Single("name") {
		args = append(args, "--"+f.Flag()+"="+f.Text(&d))
	}
	for _, o := range d.Outlines {
		args = append(args, "--outline", o.String())
	}
	for _, s := range d.Spells {
		args = append(args, "--spell", s.String())
	}
	for _, x := range d.Duties {
		when := fmt.Sprintf("every %dw", x.Every)
		if x.Before != nil {
			when = fmt.Sprintf("before %dd %dd", x.Before.From, x.Before.To)
		}
		said := fmt.Sprintf("%s %g %s", x.Name, x.Minutes, when)
		if x.LeaveOut {
			said += " out"
		}
		if x.Work != "" {
			said += " by " + string(x.Work)
		}
		args = append(args, "--duty", fmt.Sprintf("%s done %s", said, x.Done))
	}
	return args
}

func showArgs(s kennel.Show) []string {
	return []string{
		"--days", fmt.Sprint(s.Days), "--entries-close", s.EntriesClose.String(), "--weight", fmt.Sprint(s.Weight), "--chance", fmt.Sprint(s.Chance),
		"--dogs", strings.Join(s.Dogs, ","), "--away-from", s.Away.From.String(), "--away-to", s.Away.To.String(),
	}
}

func handsArgs(h kennel.Hands) (args []string) {
	for d, key := range kennel.Weekdays() {
		args = append(args, fmt.Sprintf("%s=%g", key, h.Hours[d]))
	}
	does := make([]string, len(h.Does))
	for i, s := range h.Does {
		does[i] = string(s)
	}
	return append(args, "--strip", fmt.Sprint(h.StripHoursADay), "--does", strings.Join(does, ","))
}

// Every field that people give by flags comes into the book: of a thing that is changed, and of one that is new.
func TestEveryFieldCanBeGivenByFlags(t *testing.T) {
	inExamples(t)
	other, err := filled.Kennel(1)
	if err != nil {
		t.Fatal(err)
	}
	left := func(name string, want, got any, notCarried map[string]string) {
		t.Helper()
		for _, lost := range filled.Left(filled.Differences(want, got), notCarried) {
			t.Errorf("%s: %s", name, lost)
		}
	}
	dog, show, hands := other.Dogs[0], other.Shows[0], other.Hands[0]
	show.Dogs = []string{"Moss"}

	k, run := filledBook(t, 0)
	run(append([]string{"show", "edit", k.Shows[0].Name, "--name", show.Name, "--move", show.On.String()}, showArgs(show)...)...)
	for _, x := range k.Dogs[0].Duties {
		run("dog", "edit", "Sorrel", "--no-duty", x.Name)
	}
	for _, o := range k.Dogs[0].Outlines {
		run("dog", "edit", "Sorrel", "--no-outline", string(o.Area))
	}
	for _, s := range k.Dogs[0].Spells {
		run("dog", "edit", "Sorrel", "--no-spell", s.From.String())
	}
	run(append([]string{"dog", "edit", "Sorrel", "--name", dog.Name}, dogArgs(dog)...)...)
	for _, a := range dog.Areas {
		run(append([]string{"coat", "set", dog.Name, string(a.Area)}, strings.Fields(layersSaid(a.Layers))...)...)
	}
	run(append([]string{"hours", "set", "Handler"}, handsArgs(hands)...)...)
	for _, s := range k.Hands[0].Away {
		run("hours", "away", "Handler", "--from", s.From.String(), "--drop")
	}
	for _, s := range hands.Away {
		run("hours", "away", "Handler", "--from", s.From.String(), "--to", s.To.String(), "--why", s.Why)
	}
	got := exported(t, run)
	left("dog edit", dog, got.Dogs[0], map[string]string{
		"Here[0]": "--from and --to are about the last run of days", "Here[1].Why": "the note that is there is kept",
	})
	left("show edit", show, got.Shows[0], map[string]string{"Away.Why": "the note that is there is kept"})
	left("hours", hands, got.Hands[0], map[string]string{"Name": "the name says whose hours they are"})

	_, run = filledBook(t, 0)
	run(append([]string{"dog", "add", dog.Name}, dogArgs(dog)...)...)
	run(append([]string{"show", "add", show.Name, "--on", show.On.String()}, showArgs(show)...)...)
	run(append([]string{"hours", "set", hands.Name, "--new"}, handsArgs(hands)...)...)
	got = exported(t, run)
	dog.Here = dog.Here[1:]
	left("dog add", dog, got.Dogs[2], map[string]string{"Here[0].Why": "flags give no note", "Areas": "coat set gives it"})
	left("show add", show, got.Shows[2], map[string]string{"Away.Why": "flags give no note"})
	left("hours set --new", hands, got.Hands[2], map[string]string{"Away": "hours away gives it"})
}

// A kennel file comes into the book and out of it, and a dog that is changed in one thing keeps all others.
func TestNoFieldIsLostThroughTheBook(t *testing.T) {
	inExamples(t)
	k, run := filledBook(t, 0)
	for _, lost := range filled.Differences(k, exported(t, run)) {
		t.Error(lost)
	}
	run("dog", "edit", "Moss", "--priority", "3")
	run("show", "edit", "Brackenmere", "--weight", "4")
	run("hours", "set", "Assistant", "--strip", "1")
	k.Dogs[1].Priority, k.Shows[0].Weight, k.Hands[1].StripHoursADay = 3, 4, 1
	for _, lost := range filled.Differences(k, exported(t, run)) {
		t.Error(lost)
	}
	s := book.State{Kennel: k}
	s.RenameDog("Sorrel", "Bracken")
	s.RenameDog("Bracken", "Sorrel")
	for _, lost := range filled.Differences(k, s.Kennel) {
		t.Errorf("renamed there and back: %s", lost)
	}
}
