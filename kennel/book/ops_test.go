package book

import (
	"fmt"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/filled"
)

// unchanged fails where an operation on a copy of a state changed the state.
func unchanged(t *testing.T, what string, was State) {
	t.Helper()
	for _, d := range filled.Differences(filledState(t, 0), was) {
		t.Errorf("%s touched the state that it was copied from: %s", what, d)
	}
}

func TestARenamedDogIsRenamedWhereverItIsWritten(t *testing.T) {
	s := filledState(t, 0)
	c := s
	c.RenameDog("Sorrel", "Tansy")
	if text := fmt.Sprintf("%+v", c); strings.Contains(text, "Sorrel") || strings.Count(text, "Tansy") != strings.Count(fmt.Sprintf("%+v", s), "Sorrel") {
		t.Errorf("not renamed everywhere: %s", text)
	}
	c.RenameDog("Tansy", "Sorrel")
	unchanged(t, "renaming a dog", s)
	for _, lost := range filled.Differences(s, c) {
		t.Error(lost)
	}
}

func TestRenamedHandsKeepTheirSessionsAndWhatTheyDid(t *testing.T) {
	s := filledState(t, 0)
	c := s
	c.RenameHands("Handler", "Trimmer")
	if c.Kennel.Hands[0].Name != "Trimmer" || c.Sessions[0].Hands != "Trimmer" || c.Work[0].Hands != "Handler" {
		t.Errorf("%+v %+v %+v", c.Kennel.Hands[0], c.Sessions[0], c.Work[0])
	}
	unchanged(t, "renaming hands", s)
	c.RenameHands("Trimmer", "Handler")
	for _, lost := range filled.Differences(s, c) {
		t.Error(lost)
	}
}

func TestARetiredDogLeavesShowsAndSessionsAheadAndKeepsItsRecords(t *testing.T) {
	s := filledState(t, 0)
	s.Sessions = append(s.Sessions, Session{ID: 3, Session: kennel.Session{Dog: "Sorrel", On: s.Kennel.Shows[0].On + 1}})
	last := s.Kennel.Shows[0].On
	what, err := s.RetireDog("Sorrel", last)
	if err != nil || what != "retired the dog Sorrel" {
		t.Fatal(what, err)
	}
	if !s.Kennel.Shows[0].Has("Sorrel") || s.Kennel.Shows[1].Has("Sorrel") {
		t.Errorf("shows: %+v", s.Kennel.Shows)
	}
	if len(s.Sessions) != 2 || len(s.Work) != 2 || len(s.Measures) != 2 || !s.Kennel.Dogs[0].Gone(last+1) {
		t.Errorf("%d sessions, %d lines of work, %d lengths, gone %v", len(s.Sessions), len(s.Work), len(s.Measures), s.Kennel.Dogs[0].Gone(last+1))
	}
	if _, err := s.RetireDog("Nobody", last); err == nil {
		t.Error("a dog that is not there was retired")
	}
}

func TestAddingAndDroppingTouchesNothingElse(t *testing.T) {
	s := filledState(t, 0)
	c := s
	d := kennel.UsualDog()
	d.Name = "Tansy"
	show := kennel.UsualShow()
	show.Name, show.On = "Ferrydown", monday
	if c.AddDog(d, monday); len(c.Kennel.Dogs) != 3 || c.seenOn("Tansy", AllAreas).On != monday {
		t.Errorf("added %+v, seen %+v", c.Kennel.Dogs, c.Seen)
	}
	c.AddShow(show)
	if what, err := c.DropShow(show.Name, show.On); err != nil || what != "dropped the show Ferrydown on 2027-01-11" {
		t.Error(what, err)
	}
	for _, lost := range filled.Differences(s.Kennel.Shows, c.Kennel.Shows) {
		t.Error(lost)
	}
	if _, err := c.DropShow(show.Name, show.On); err == nil {
		t.Error("a show was dropped twice")
	}
	away := kennel.Span{From: monday, To: monday + 3, Why: "a cold"}
	if what, err := c.GoAway("Assistant", away); err != nil || c.Kennel.Hands[1].Away[2] != away || what != "Assistant is away from 2027-01-11 to 2027-01-14" {
		t.Error(what, err)
	}
	if _, err := c.ComeBack("Assistant", monday); err != nil || len(c.Kennel.Hands[1].Away) != 2 {
		t.Error(c.Kennel.Hands[1], err)
	}
	if _, err := c.ComeBack("Assistant", monday); err == nil || len(c.Kennel.Hands[1].Away) != 2 {
		t.Error("came back twice", err)
	}
	if _, err := c.DropHands("Assistant"); err != nil || len(c.Kennel.Hands) != 1 {
		t.Error(c.Kennel.Hands, err)
	}
	if _, err := c.DropHands("Assistant"); err == nil {
		t.Error("hands were dropped twice")
	}
	unchanged(t, "an operation", s)
}

func TestABookBeginsWithANameAndUnitsAndNeverTwice(t *testing.T) {
	var s State
	s.Begin()
	if s.Kennel.Name == "" || s.Kennel.Units != kennel.UnitsMillimetres {
		t.Errorf("%+v", s.Kennel)
	}
	s = filledState(t, 0)
	s.Begin()
	unchanged(t, "beginning", s)
}
