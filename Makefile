.PHONY: dev check generate bench lint

dev:
	go run ./cmd/fettle demo

generate:
	go tool -modfile=tool/go.mod templ generate
	cd island && npm ci --silent
	cd tool && go run ./bundle

lint:
	test -z "$$(gofmt -l . | grep -v node_modules)"
	go vet ./...
	go tool -modfile=tool/go.mod staticcheck ./...

check: lint generate
	git diff --exit-code
	cd island && npm run --silent check && npm test --silent
	FETTLE_BROWSER=1 go test ./...

bench:
	go test -run xxx -bench . -benchmem ./plan ./engine/... ./internal/journal/sqlite
