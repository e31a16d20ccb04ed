package pack

// leastPairs is how often a pair must occur to be worth a byte of its own.
const leastPairs = 500

// pair replaces the pair of bytes that occurs most often by a byte that does
// not occur, again and again. It returns the shorter bytes and the list of
// replacements, three bytes each: the new one and the two it stands for.
func pair(b []byte) (short, list []byte) {
	var used [256]bool
	for _, c := range b {
		used[c] = true
	}
	short = append(short, b...)
	for code := range used {
		if used[code] {
			continue
		}
		most, times := mostFrequent(short)
		if times < leastPairs {
			break
		}
		list = append(list, byte(code), most[0], most[1])
		to := short[:0]
		for i := 0; i < len(short); i++ {
			if i+1 < len(short) && short[i] == most[0] && short[i+1] == most[1] {
				to = append(to, byte(code))
				i++
			} else {
				to = append(to, short[i])
			}
		}
		short = to
	}
	return short, list
}

func mostFrequent(b []byte) (most [2]byte, times int) {
	count := make([]int, 1<<16)
	last := -1
	for i := 0; i+1 < len(b); i++ {
		p := int(b[i])<<8 | int(b[i+1])
		// Three of the same are one pair, not two.
		if p == last && b[i] == b[i+1] {
			last = -1
			continue
		}
		count[p]++
		last = p
	}
	for p, n := range count {
		if n > times {
			most, times = [2]byte{byte(p >> 8), byte(p)}, n
		}
	}
	return most, times
}
