package joint

// A Stock is the sheet that flat parts are cut from. The zero value cuts none.
type Stock struct {
	Material  string   `json:"material,omitzero"`  // as the seller calls it
	Thickness float64  `json:"thickness,omitzero"` // mm, measured
	Kerf      float64  `json:"kerf,omitzero"`      // mm, width of what the beam takes away; 0 cuts on the line
	Density   float64  `json:"density,omitzero"`   // g/cm³, or 0 where nobody said
	Count     int      `json:"count,omitzero"`     // pieces of each part; 0 for one
	Parts     []string `json:"parts,omitzero"`     // names of the parts to cut; none for every flat one
	Inside    string   `json:"inside,omitzero"`    // colour of holes, which are cut first; black unless given
	Outside   string   `json:"outside,omitzero"`   // colour of outlines
}

// A Papers table is what the title blocks say, and how drawings are made.
type Papers struct {
	Owner    string `json:"owner,omitzero"`
	Designer string `json:"designer,omitzero"`
	Approved string `json:"approved,omitzero"`
	Date     string `json:"date,omitzero"` // of issue; left open unless given, so that the same input gives the same bytes
	Language string `json:"language,omitzero"`
	Teeth    bool   `json:"teeth,omitzero"` // draw the true teeth of gears
}

func (t *table) stock() Stock {
	if t == nil {
		return Stock{}
	}
	s := Stock{
		Material:  t.text("material"),
		Thickness: t.length("thickness"),
		Kerf:      t.length("kerf"),
		Density:   t.plain("density"),
		Count:     t.count("count"),
		Parts:     t.texts("parts"),
		Inside:    t.colour("inside"),
		Outside:   t.colour("outside"),
	}
	t.need("material", "thickness", "kerf")
	t.finish()
	return s
}

func (t *table) papers() Papers {
	if t == nil {
		return Papers{}
	}
	p := Papers{
		Owner: t.text("owner"), Designer: t.text("designer"), Approved: t.text("approved"),
		Date: t.text("date"), Language: t.text("language"), Teeth: t.yes("teeth"),
	}
	t.finish()
	return p
}

// colour reads a colour as SVG writes it, #rrggbb; "" where it is not given.
func (t *table) colour(key string) string {
	s := t.text(key)
	if !t.has(key) {
		return ""
	}
	ok := len(s) == 7 && s[0] == '#'
	for _, r := range s[min(1, len(s)):] {
		ok = ok && (r >= '0' && r <= '9' || r >= 'a' && r <= 'f' || r >= 'A' && r <= 'F')
	}
	if !ok {
		t.refuse(key, "is not a colour", "write #rrggbb, for example \"#ff0000\"")
		return ""
	}
	return s
}
