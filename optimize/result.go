// Package optimize is the entrance to planning: Plan turns a kennel into numbers, has the season solved and
// turns the answer back into the trade's words. It reads no file and no clock.
package optimize

import "tuckup/optimize/planned"

// What a plan says is in tuckup/optimize/planned, field by field; these are its names at the entrance.

type (
	// Options are the settings of a plan.
	Options = planned.Options
	// Result is a plan in the trade's words.
	Result = planned.Result
	// Season is how good the plan is and how good any plan could be.
	Season = planned.Season
	// HourPrice is what one more hour would add in a week, for a group of hands.
	HourPrice = planned.HourPrice
	// Week is the work of one week.
	Week = planned.Week
	// DogWeek is one dog's sessions in one week.
	DogWeek = planned.DogWeek
	// AreaWork is how much of one area is pulled.
	AreaWork = planned.AreaWork
	// DutyWork is one duty that is placed in a week.
	DutyWork = planned.DutyWork
	// HandsWeek is one pair of hands in one week.
	HandsWeek = planned.HandsWeek
	// Given is how much of one kind of work a pair of hands is given in a week.
	Given = planned.Given
	// ShowReadiness is how ready a dog is for a show.
	ShowReadiness = planned.ShowReadiness
	// Outlook is one dog's coat over the season.
	Outlook = planned.Outlook
	// AreaOutlook is one area's coat today.
	AreaOutlook = planned.AreaOutlook
	// Cannot is something that the plan cannot meet.
	Cannot = planned.Cannot
	// Way is how one dog's jacket is worked over the season.
	Way = planned.Way
	// WayKind is how a dog's jacket is worked.
	WayKind = planned.WayKind
	// Spell is a run of weeks in which a jacket is worked one way.
	Spell = planned.Spell
	// Other is what another way of working a dog's jacket would bring.
	Other = planned.Other
	// OtherShow is a dog at a show when its jacket is worked another way.
	OtherShow = planned.OtherShow
	// Cure is the cheapest work that would bring a dog in coat for a show.
	Cure = planned.Cure
	// CureWork is one area's part of a cure.
	CureWork = planned.CureWork
	// Gathered is what gathering crumbs into workable touches cost.
	Gathered = planned.Gathered
	// Tight is the week where one more hour is worth most.
	Tight = planned.Tight
	// DogPoints is what a plan is worth for one dog.
	DogPoints = planned.DogPoints
	// Timetable is the work of the next days, by day and pair of hands.
	Timetable = planned.Timetable
	// Worth is how good a timetable is and how good any timetable could be.
	Worth = planned.Worth
	// Day is one day of a timetable.
	Day = planned.Day
	// HandsDay is one pair of hands on one day.
	HandsDay = planned.HandsDay
	// Item is one stretch of a day.
	Item = planned.Item
	// ItemKind is what a stretch of a day is.
	ItemKind = planned.ItemKind
	// LeftOut is work of the season's week that the days could not hold.
	LeftOut = planned.LeftOut
	// SessionIn is a session of the timetable with all its parts.
	SessionIn = planned.SessionIn
	// InUse is what is said beside a plan that was taken.
	InUse = planned.InUse
	// Behind is work on one area that slipped.
	Behind = planned.Behind
	// SessionAt is when a session is.
	SessionAt = planned.SessionAt
)

// The kinds of items.
const (
	ItemSession = planned.ItemSession
	ItemDuty    = planned.ItemDuty
	ItemBath    = planned.ItemBath
	ItemBreak   = planned.ItemBreak
	ItemTravel  = planned.ItemTravel
)

// The ways in which a jacket is worked.
const (
	WayRolled   = planned.WayRolled
	WayStaged   = planned.WayStaged
	WayStripped = planned.WayStripped
	WayRested   = planned.WayRested
)

// The kinds of work beside those that hands are named for.
const (
	SetUp = planned.SetUp // of setting sessions up
	Care  = planned.Care  // of caring for kept hair
	Trim  = planned.Trim  // of trims, for hands that do close work
)
