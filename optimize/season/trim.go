package season

// trim takes back what rounding has put past a limit.
func (p *Problem) trim(pl Plan) {
	for i := range p.Rows {
		r := &p.Rows[i]
		var work, setUps float64
		for d := range p.Dogs {
			g := &p.Dogs[d]
			if r.SetUps {
				setUps += g.SetUp * float64(pl.Sessions[d][r.Week])
			}
			for a := range g.Areas {
				if r.counts(g.Areas[a].Kind) {
					work += g.Areas[a].MinutesIn(r.Week, pl.Shares[d][a])
				}
			}
		}
		if work <= 0 || setUps+work <= r.Capacity {
			continue
		}
		kept := max(0, (r.Capacity-setUps)/work)
		for d := range p.Dogs {
			for a := range p.Dogs[d].Areas {
				if r.counts(p.Dogs[d].Areas[a].Kind) {
					pl.Shares[d][a][r.Week] *= kept
				}
			}
		}
	}
}
