package loom

import "fettle/internal/web"

func (p place) netRoutes() []web.Route { return nil }
