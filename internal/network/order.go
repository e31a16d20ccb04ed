package network

// order gives each link its row: those with a motor last, because a solution
// begins there, and of the others always the one next that meets the fewest
// others, so that what is zero stays zero for longest (the minimum degree of
// W. F. Tinney and J. W. Walker, Proc. IEEE 55 (1967) 1801). Most links of a box
// meet two or three others; those at a cabin all meet each other.
func (p *plan) order(n *Network) {
	meets := n.meetings()
	driven := make([]bool, len(n.links))
	for _, m := range n.motors {
		driven[m.link] = true
	}
	p.link = make([]int, len(n.links))
	done := make([]bool, len(n.links))
	for row := range n.links {
		next, least := -1, 0
		for i, others := range meets {
			if done[i] {
				continue
			}
			degree := 0
			for _, m := range others {
				if m {
					degree++
				}
			}
			if driven[i] {
				degree += len(n.links)
			}
			if next < 0 || degree < least {
				next, least = i, degree
			}
		}
		p.link[next], done[next] = row, true
		// Without it, all that met it meet each other.
		for i, m := range meets[next] {
			meets[i][next] = false
			if !m || i == next {
				continue
			}
			for j, also := range meets[next] {
				if also && j != next && j != i {
					meets[i][j] = true
				}
			}
		}
	}
}

// meetings tells which links share a row of the matrix: they end at one body,
// or their motors are in one mesh.
func (n *Network) meetings() [][]bool {
	meets := make([][]bool, len(n.links))
	flat := make([]bool, len(n.links)*len(n.links))
	for i := range meets {
		meets[i] = flat[i*len(n.links):][:len(n.links)]
	}
	for i, a := range n.links {
		for j, b := range n.links[:i] {
			for _, x := range [2]BodyID{a.from.Body, a.to.Body} {
				if _, still := n.bodies[x].(Still); !still && (x == b.from.Body || x == b.to.Body) {
					meets[i][j], meets[j][i] = true, true
				}
			}
		}
	}
	for _, a := range n.motors {
		for _, b := range n.motors {
			if a.mesh == b.mesh && a.link != b.link {
				meets[a.link][b.link] = true
			}
		}
	}
	return meets
}
