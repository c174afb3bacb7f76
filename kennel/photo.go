package kennel

// Photo is a picture of a dog on a day: of one area, with a length or a session of that day, or of the whole dog.
type Photo struct {
	Dog    string
	On     Date
	Area   AreaName // "" = the whole dog
	Digest string   // SHA-256 of the picture in hexadecimal; the picture itself is kept beside the book
	Note   string
}

// PhotoOf is what else was written down of a picture's dog on its day and, where it is of one area, of that area: what the picture
// belongs to.
type PhotoOf struct {
	Length  Millimetres // 0 = none was measured, or the picture is of the whole dog
	Session bool
	Areas   []AreaName // pulled in the session
}
