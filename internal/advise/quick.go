package advise

// QuickRequest is what a quick answer needs to know. Zero and "" are open and
// get a shown assumption.
type QuickRequest struct {
	Body   string  `json:"body"`
	SizeIn float64 `json:"size_in"`
	Count  int     `json:"count"`
	Type   string  `json:"type"` // "" is whichever suits
	NetL   float64 `json:"net_l"`
	PowerW float64 `json:"power_w"`
}
