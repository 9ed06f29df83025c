package gltf

// document is what we need of a file's JSON [glTF2, sections 5.1 to 5.27].
type document struct {
	Asset struct {
		Version   string `json:"version"`
		Generator string `json:"generator,omitempty"`
	} `json:"asset"`
	Required    []string     `json:"extensionsRequired,omitempty"`
	Scene       *int         `json:"scene,omitempty"`
	Scenes      []scene      `json:"scenes,omitempty"`
	Nodes       []node       `json:"nodes,omitempty"`
	Meshes      []meshes     `json:"meshes,omitempty"`
	Accessors   []accessor   `json:"accessors,omitempty"`
	BufferViews []bufferView `json:"bufferViews,omitempty"`
	Buffers     []buffer     `json:"buffers,omitempty"`
}

type scene struct {
	Nodes []int `json:"nodes"`
}

type node struct {
	Mesh        *int         `json:"mesh,omitempty"`
	Children    []int        `json:"children,omitempty"`
	Matrix      *[16]float64 `json:"matrix,omitempty"`
	Translation *[3]float64  `json:"translation,omitempty"`
	Rotation    *[4]float64  `json:"rotation,omitempty"`
	Scale       *[3]float64  `json:"scale,omitempty"`
}

type meshes struct {
	Primitives []primitive `json:"primitives"`
}

type primitive struct {
	Attributes map[string]int `json:"attributes"`
	Indices    *int           `json:"indices,omitempty"`
	Mode       *int           `json:"mode,omitempty"`
}

type accessor struct {
	BufferView    *int      `json:"bufferView,omitempty"`
	ByteOffset    int       `json:"byteOffset,omitempty"`
	ComponentType int       `json:"componentType"`
	Normalized    bool      `json:"normalized,omitempty"`
	Count         int       `json:"count"`
	Type          string    `json:"type"`
	Max           []float64 `json:"max,omitempty"`
	Min           []float64 `json:"min,omitempty"`
	Sparse        *struct{} `json:"sparse,omitempty"`
}

type bufferView struct {
	Buffer     int `json:"buffer"`
	ByteOffset int `json:"byteOffset,omitempty"`
	ByteLength int `json:"byteLength"`
	ByteStride int `json:"byteStride,omitempty"`
	Target     int `json:"target,omitempty"`
}

type buffer struct {
	ByteLength int    `json:"byteLength"`
	URI        string `json:"uri,omitempty"`
}

// Kinds of numbers.
const (
	int8s    = 5120
	uint8s   = 5121
	int16s   = 5122
	uint16s  = 5123
	uint32s  = 5125
	float32s = 5126
)

var size = map[int]int{int8s: 1, uint8s: 1, int16s: 2, uint16s: 2, uint32s: 4, float32s: 4}

// Ways to string triangles together.
const (
	triangles = 4
	strip     = 5
	fan       = 6
)
