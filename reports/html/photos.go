package html

import (
	"encoding/base64"
	"fmt"
	"html/template"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/say"
)

// Photo is a picture of a dog with the address that a page has it from.
type Photo struct {
	kennel.Photo
	Of  kennel.PhotoOf
	Src template.URL // "" = it is missing or damaged
}

// Inside is the address of a picture that is part of the page itself; "" for no picture.
func Inside(jpeg []byte) template.URL {
	if len(jpeg) == 0 {
		return ""
	}
	return template.URL("data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(jpeg)) // drawn by the program, not as it was brought
}

// MostPhotos is how many pictures of a dog a page shows, the newest.
const MostPhotos = 12

// photosSection are the pictures of a dog, area by area in the order of the trade, the newest first.
func photosSection(r optimize.Result, dog string, x Records) (section, error) {
	var own []Photo
	for _, p := range x.Photos {
		if p.Dog == dog {
			own = append(own, p)
		}
	}
	if len(own) == 0 {
		return section{}, nil
	}
	slices.SortStableFunc(own, func(a, b Photo) int { return int(b.On - a.On) })
	s := section{id: "photos", title: "Pictures"}
	if len(own) > MostPhotos {
		s.note = fmt.Sprintf("The newest %d of %d.", MostPhotos, len(own))
		own = own[:MostPhotos]
	}
	var b fragments
	for _, area := range append([]kennel.AreaName{""}, kennel.AreaNames()...) {
		var of []Photo
		for _, p := range own {
			if p.Area == area {
				of = append(of, p)
			}
		}
		if len(of) == 0 {
			continue
		}
		b.heading(areaShown(area))
		b.add(pictures(r, of, x.Private))
	}
	s.body = b.html()
	return s, b.err
}

func areaShown(a kennel.AreaName) string {
	if a == "" {
		return "The whole dog"
	}
	return say.FirstUpper(string(a))
}

// pictures are pictures with their days, and with the handler's notes if wanted.
func pictures(r optimize.Result, all []Photo, notes bool) (template.HTML, error) {
	type view struct {
		Src        template.URL
		Alt, Words string
	}
	views := make([]view, len(all))
	for i, p := range all {
		v := view{Src: p.Src, Words: say.Day(p.On, r.On)}
		v.Alt = fmt.Sprintf("%s, %s, on %s", p.Dog, areaShown(p.Area), v.Words)
		if with := say.PhotoOf(p.Photo, p.Of, r.Kennel.Units); with != "" {
			v.Words += ", " + with
		}
		if notes && p.Note != "" {
			v.Words += ": " + p.Note
		}
		v.Alt, v.Words = say.Plain(v.Alt), say.Plain(v.Words)
		views[i] = v
	}
	return fragment("pictures", views)
}

// ofMonth is the newest picture of a dog in the month of a letter; false where there is none that can be shown.
func ofMonth(all []Photo, dog string, month kennel.Date) (newest Photo, ok bool) {
	first := month.Time()
	last := kennel.NewDate(first.Year(), first.Month()+1, 1)
	for _, p := range all {
		if p.Dog == dog && p.Src != "" && p.On >= month && p.On < last && (!ok || p.On > newest.On || p.On == newest.On && p.Area == "") {
			newest, ok = p, true
		}
	}
	return newest, ok
}
