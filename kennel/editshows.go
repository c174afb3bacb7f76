package kennel

// MoveTo moves the show to another first day; the days of travelling and the closing of entries move with it.
func (s *Show) MoveTo(on Date) {
	by := int(on - s.On)
	s.On = on
	if s.EntriesClose != 0 {
		s.EntriesClose = s.EntriesClose.AddDays(by)
	}
	if s.Away != nil {
		away := *s.Away
		away.From, away.To = away.From.AddDays(by), away.To.AddDays(by)
		s.Away = &away
	}
}
