package patterns

import (
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"

	"tuckup/kennel"
)

// bounds are what a figure may be.
type bounds struct {
	low, high float64
	unit      string
}

// What no coat goes beyond; wide, to catch slips of the pen only.
var (
	weightBounds = bounds{0.001, 1, "part of the dog's readiness"}
	readyBounds  = bounds{1, 52, "weeks"}
	holdBounds   = bounds{1, 52, "weeks"}
	gripBounds   = bounds{0, 26, "weeks"}
	timeBounds   = bounds{1, 600, "minutes"}
	finishBounds = bounds{0, 26, "weeks"}
	shareBounds  = bounds{0, 1, "share of the area"}
	rollBounds   = bounds{0.01, 1, "share of the area"}
	lengthBounds = bounds{1, 300, "millimetres"}
	lookBounds   = bounds{0, 60, "minutes"}
	careBounds   = bounds{1, 240, "minutes"}
	everyBounds  = bounds{1, 52, "weeks"}
	beforeBounds = bounds{0, 60, "days before a show"}
	lastsBounds  = bounds{0, 90, "days"}
)

// usualLook is what looking over a dog takes where its pattern does not say: about a terrier's. Common practice, minutes.
const usualLook = 12

// weightSlack is how far the weights of a pattern may sum from 1, for thirds written in decimals.
const weightSlack = 1e-3

var plainName = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// read returns base with the file's patterns added. base is not changed.
func (r *reader) read(data []byte, base kennel.Patterns) (kennel.Patterns, error) {
	all := maps.Clone(base)
	if all == nil {
		all = kennel.Patterns{}
	}
	root := r.root(data)
	if root == nil {
		return nil, r.failed()
	}
	top := r.fields(root, "", "patterns")
	list, ok := top["patterns"].(*ast.SequenceNode)
	if !ok || len(list.Values) == 0 {
		r.fail(root, "patterns", "", "should be a list of patterns", "write \"patterns:\" and under it \"- name: NAME\"")
		return nil, r.failed()
	}
	seen := map[string]bool{}
	for i, n := range list.Values {
		in := entry{path: fmt.Sprintf("patterns[%d]", i), at: n, node: n}
		p := r.pattern(in, all)
		if seen[p.Name] {
			r.fail(n, in.path+".name", p.Name, "is in the file twice", "give one of the two another name")
		}
		if r.err != nil {
			return nil, r.failed()
		}
		seen[p.Name] = true
		all[p.Name] = p
	}
	return all, nil
}

// How a pattern file says how long the dog's legs are. They decide only how it is drawn.
const (
	longLegs  = "long"
	shortLegs = "short"
)

func (r *reader) pattern(in entry, all kennel.Patterns) kennel.Pattern {
	got := r.fields(in.node, in.path, "name", "extends", "title", "texture", "legs", "roll_most", "look", "care", "undercoat", "finishing", "pack", "areas")
	var p kennel.Pattern
	if n := got["extends"]; n != nil {
		path := join(in.path, "extends")
		name := r.text(n, path)
		of, ok := all[name]
		if !ok {
			r.fail(n, path, name, "is not a pattern that is known",
				"one of "+strings.Join(kennel.Nearest(name, Names(all), 3), ", "))
			return p
		}
		p = copyOf(of)
		r.need(got, in, "name")
	} else {
		r.need(got, in, "name", "title", "texture", "roll_most", "areas")
		if r.complete {
			r.need(got, in, "look")
		}
		p.Look = kennel.Figure{Value: usualLook, Low: usualLook, High: usualLook, Source: string(kennel.MarkPractice), Mark: kennel.MarkPractice}
	}
	if r.err != nil {
		return p
	}
	p.Name = r.text(got["name"], join(in.path, "name"))
	if !plainName.MatchString(p.Name) {
		r.fail(got["name"], join(in.path, "name"), p.Name, "should be small letters, digits and hyphens", "a name like wire-fox-terrier")
	}
	if n := got["title"]; n != nil {
		p.Title = r.text(n, join(in.path, "title"))
	}
	if n := got["texture"]; n != nil {
		words := []string{string(kennel.TextureHard), string(kennel.TextureFine), string(kennel.TextureSoft)}
		p.Texture = kennel.Texture(r.oneOf(n, join(in.path, "texture"), words))
	}
	if n := got["legs"]; n != nil {
		p.Short = r.oneOf(n, join(in.path, "legs"), []string{longLegs, shortLegs}) == shortLegs
	}
	if n := got["roll_most"]; n != nil {
		p.RollMost = r.figure(entry{path: join(in.path, "roll_most"), at: n, node: n}, rollBounds)
	}
	r.figureInto(&p.Look, got, in, "look", lookBounds)
	r.careInto(&p.Care, got, in, "care")
	r.careInto(&p.Undercoat, got, in, "undercoat")
	for _, e := range r.entries(got["finishing"], join(in.path, "finishing")) {
		r.finishInto(&p, e)
	}
	if n := got["pack"]; n != nil {
		p.Pack = r.words(n, join(in.path, "pack"))
	}
	for _, e := range r.entries(got["areas"], join(in.path, "areas")) {
		r.areaInto(&p, e)
	}
	var sum float64
	for _, a := range p.Areas {
		sum += a.Weight.Value
	}
	if math.Abs(sum-1) > weightSlack {
		at := got["areas"]
		if at == nil {
			at = in.at
		}
		r.fail(at, join(in.path, "areas"), "", fmt.Sprintf("the weights sum to %.4g, not to 1", sum), "change the weights so that they sum to 1")
	}
	return p
}

// words is a list of words; none for an empty list.
func (r *reader) words(n ast.Node, path string) (all []string) {
	list, ok := n.(*ast.SequenceNode)
	if !ok {
		r.fail(n, path, written(n), "should be a list", "[a steel comb, a slicker brush]")
		return nil
	}
	for i, v := range list.Values {
		all = append(all, r.text(v, fmt.Sprintf("%s[%d]", path, i)))
	}
	return all
}

// careInto reads what comes round every few weeks.
func (r *reader) careInto(c *kennel.Care, got map[string]ast.Node, in entry, key string) {
	n := got[key]
	if n == nil {
		return
	}
	path := join(in.path, key)
	care := r.fields(n, path, "minutes", "every")
	r.need(care, entry{path: path, at: n}, "minutes", "every")
	r.figureInto(&c.Minutes, care, entry{path: path}, "minutes", careBounds)
	r.figureInto(&c.Every, care, entry{path: path}, "every", everyBounds)
}

// finishInto reads a line of what is done before a show and puts it in place of the pattern's line of that name, or after the
// others. One that is left out is taken away.
func (r *reader) finishInto(p *kennel.Pattern, in entry) {
	got := r.fields(in.node, in.path, "work", "minutes", "from", "to", "lasts", "leave_out")
	if strings.Contains(in.key, ",") || !plainWords(in.key) {
		r.fail(in.at, in.path, "", "should be a few words without a comma", "a name like ears")
		return
	}
	at := slices.IndexFunc(p.Finish, func(f kennel.FinishLine) bool { return strings.EqualFold(f.Name, in.key) })
	if n := got["leave_out"]; n != nil && r.yes(n, join(in.path, "leave_out")) {
		if at < 0 {
			r.fail(in.at, in.path, "", "is no line of the pattern that this one extends", "leave it away")
			return
		}
		p.Finish = slices.Delete(p.Finish, at, at+1)
		return
	}
	if at < 0 {
		r.need(got, in, "work", "minutes", "from", "to", "lasts")
		p.Finish = append(p.Finish, kennel.FinishLine{Name: in.key})
		at = len(p.Finish) - 1
	}
	f := &p.Finish[at]
	if n := got["work"]; n != nil {
		words := []string{string(kennel.SkillClose), string(kennel.SkillFurnishings), string(kennel.SkillDuties)}
		f.Work = kennel.Skill(r.oneOf(n, join(in.path, "work"), words))
	}
	r.figureInto(&f.Minutes, got, in, "minutes", careBounds)
	r.figureInto(&f.From, got, in, "from", beforeBounds)
	r.figureInto(&f.To, got, in, "to", beforeBounds)
	r.figureInto(&f.Lasts, got, in, "lasts", lastsBounds)
	switch {
	case f.From.Value < f.To.Value:
		r.fail(in.at, join(in.path, "from"), kennel.Number(f.From.Value), "is nearer to the show than to", "as many days as to, or more")
	case f.From.Value >= 1 && f.To.Value < 1:
		r.fail(in.at, join(in.path, "to"), kennel.Number(f.To.Value), "is the day of the show: what is begun before it has to be done before it",
			"1, or from: 0 and to: 0 for what is done at the show")
	case f.Lasts.Value < f.From.Value:
		r.fail(in.at, join(in.path, "lasts"), kennel.Number(f.Lasts.Value), "is less than from: done on its first day it would not be right on the show's",
			"as many days as from, or more")
	}
}

// areaInto reads an area and puts it in place of the pattern's area of that name, or after the others.
func (r *reader) areaInto(p *kennel.Pattern, in entry) {
	name := kennel.AreaName(in.key)
	if names := kennel.AreaNames(); !slices.Contains(names, name) {
		words := make([]string, len(names))
		for i, n := range names {
			words[i] = string(n)
		}
		r.fail(in.at, in.path, "", "is not an area of the coat", "one of "+strings.Join(words, ", "))
		return
	}
	at := slices.IndexFunc(p.Areas, func(a kennel.PatternArea) bool { return a.Name == name })
	got := r.fields(in.node, in.path, "work", "kept", "weight", "ready", "hold", "grip", "minutes", "finish", "show_length")
	if at < 0 {
		r.need(got, in, "work", "weight", "ready", "hold", "grip", "minutes", "finish")
		p.Areas = append(p.Areas, kennel.PatternArea{Name: name})
		at = len(p.Areas) - 1
	}
	a := &p.Areas[at]
	if n := got["work"]; n != nil {
		words := []string{string(kennel.SkillJacket), string(kennel.SkillClose), string(kennel.SkillFurnishings)}
		a.Work = kennel.Skill(r.oneOf(n, join(in.path, "work"), words))
	}
	r.keptInto(a, got, in)
	r.figureInto(&a.Weight, got, in, "weight", weightBounds)
	r.figureInto(&a.Ready, got, in, "ready", readyBounds)
	r.figureInto(&a.Hold, got, in, "hold", holdBounds)
	r.figureInto(&a.Grip, got, in, "grip", gripBounds)
	r.figureInto(&a.Minutes, got, in, "minutes", timeBounds)
	if n := got["finish"]; n != nil {
		path := join(in.path, "finish")
		finish := r.fields(n, path, "weeks", "share")
		r.need(finish, entry{path: path, at: n}, "weeks", "share")
		r.figureInto(&a.FinishWeeks, finish, entry{path: path}, "weeks", finishBounds)
		r.figureInto(&a.FinishShare, finish, entry{path: path}, "share", shareBounds)
	}
	if n := got["show_length"]; n != nil {
		a.ShowLength = new(kennel.Figure)
		r.figureInto(a.ShowLength, got, in, "show_length", lengthBounds)
	}
	if a.Grip.Value > a.Ready.Value {
		r.fail(in.at, join(in.path, "grip"), fmt.Sprint(a.Grip.Value),
			fmt.Sprintf("hair that is ready after %g weeks could never be gripped", a.Ready.Value), "a grip below ready")
	}
}

// keptInto reads whether the area's hair is kept. Furnishings always are.
func (r *reader) keptInto(a *kennel.PatternArea, got map[string]ast.Node, in entry) {
	n := got["kept"]
	if n != nil {
		a.Kept = r.yes(n, join(in.path, "kept"))
	}
	if a.Work != kennel.SkillFurnishings {
		return
	}
	if n != nil && !a.Kept {
		r.fail(n, join(in.path, "kept"), written(n), "should be true: furnishings are kept", "kept: true, or another work")
	}
	a.Kept = true
}

func (r *reader) figureInto(f *kennel.Figure, got map[string]ast.Node, in entry, key string, b bounds) {
	if n := got[key]; n != nil {
		*f = r.figure(entry{path: join(in.path, key), at: n, node: n}, b)
	}
}

// figure is a number with its range, source and mark, or a bare number.
func (r *reader) figure(in entry, b bounds) kennel.Figure {
	f := kennel.Figure{Source: string(kennel.MarkPractice), Mark: kennel.MarkPractice}
	switch in.node.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
	default:
		v := r.number(in.node, in.path, b)
		if r.complete {
			r.fail(in.at, in.path, written(in.node), "has no range", "{value: .., low: .., high: ..}")
		}
		f.Value, f.Low, f.High = v, v, v
		return f
	}
	got := r.fields(in.node, in.path, "value", "low", "high", "source", "mark")
	r.need(got, in, "value")
	if r.err != nil {
		return f
	}
	f.Value = r.number(got["value"], join(in.path, "value"), b)
	f.Low, f.High = f.Value, f.Value
	if r.complete {
		r.need(got, in, "low", "high")
	}
	if n := got["low"]; n != nil {
		f.Low = r.number(n, join(in.path, "low"), b)
	}
	if n := got["high"]; n != nil {
		f.High = r.number(n, join(in.path, "high"), b)
	}
	if f.Low > f.Value || f.Value > f.High {
		r.fail(got["value"], join(in.path, "value"), written(got["value"]),
			fmt.Sprintf("lies outside its range %g to %g", f.Low, f.High), "low <= value <= high")
	}
	r.attest(&f, got, in)
	return f
}

// attest reads where a figure comes from. A mark is never better than the source's own.
func (r *reader) attest(f *kennel.Figure, got map[string]ast.Node, in entry) {
	if got["source"] == nil && got["mark"] == nil {
		return
	}
	r.need(got, in, "source", "mark")
	text := r.text(got["source"], join(in.path, "source"))
	f.Mark = kennel.Mark(r.oneOf(got["mark"], join(in.path, "mark"), markWords()))
	row, known := r.rows.find(text)
	f.Source = row.words
	switch {
	case known && rank(f.Mark) < rank(row.mark):
		r.fail(got["mark"], join(in.path, "mark"), string(f.Mark), "is better than the source's own mark", string(row.mark))
	case !known && r.complete:
		r.fail(got["source"], join(in.path, "source"), text, "is not a row of "+sourcesFile, "an id like C1, or \"common practice\"")
	}
}

// copyOf shares nothing with p.
func copyOf(p kennel.Pattern) kennel.Pattern {
	p.Areas, p.Finish, p.Pack = slices.Clone(p.Areas), slices.Clone(p.Finish), slices.Clone(p.Pack)
	for i := range p.Areas {
		if l := p.Areas[i].ShowLength; l != nil {
			length := *l
			p.Areas[i].ShowLength = &length
		}
	}
	return p
}
