package job

// FinishName is one kind of surface that a cabin can have. What it does to
// sound is the business of package cavity; the document only names it.
type FinishName struct {
	Key  string `json:"key"`
	Name string `json:"name"`
}

// Finishes lists the surfaces a document may name, hardest first.
func Finishes() []FinishName {
	return []FinishName{
		{"glass", "glass"},
		{"metal", "bare metal"},
		{"hard_trim", "hard plastic trim"},
		{"rubber_mat", "rubber matting"},
		{"cloth_trim", "cloth-covered trim"},
		{"soft_top", "fabric roof"},
		{"headliner", "headlining"},
		{"carpet", "carpet"},
		{"treated", "damped and lined panels"},
		{"leather_seat", "leather upholstery"},
		{"seats", "seat upholstery"},
	}
}

// FinishKeys lists the keys of Finishes in the same order.
func FinishKeys() []string {
	var keys []string
	for _, f := range Finishes() {
		keys = append(keys, f.Key)
	}
	return keys
}
