module seamwright

go 1.26
