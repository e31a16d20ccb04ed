module bootfloor

go 1.26

require (
	github.com/hack-pad/safejs v0.1.1
	gonum.org/v1/gonum v0.17.0
)

require golang.org/x/tools v0.30.0 // indirect
