module putby

go 1.26.8

require github.com/shopspring/decimal v1.6.0

require pgregory.net/rapid v1.3.0
