module bootfloor

go 1.26

require github.com/hack-pad/safejs v0.1.1
