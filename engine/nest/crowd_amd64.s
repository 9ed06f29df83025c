#include "textflag.h"

// func crowdAVX(flat *float32, full int, box *[4]float32, bits *uint64)
//
// Eight boxes at a time; a byte says which of them may touch the given one.
TEXT ·crowdAVX(SB), NOSPLIT, $0-32
	MOVQ flat+0(FP), SI
	MOVQ full+8(FP), CX
	MOVQ box+16(FP), AX
	MOVQ bits+24(FP), DI
	LEAQ (SI)(CX*4), R9   // x to
	LEAQ (R9)(CX*4), R10  // y from
	LEAQ (R10)(CX*4), R11 // y to

	VBROADCASTSS 0(AX), Y8
	VBROADCASTSS 4(AX), Y9
	VBROADCASTSS 8(AX), Y10
	VBROADCASTSS 12(AX), Y11
	XORQ BX, BX

eight:
	VMOVUPS (SI)(BX*4), Y0
	VCMPPS $2, Y9, Y0, Y0   // x from <= box x to
	VMOVUPS (R9)(BX*4), Y1
	VCMPPS $13, Y8, Y1, Y1  // x to >= box x from
	VMOVUPS (R10)(BX*4), Y2
	VCMPPS $2, Y11, Y2, Y2
	VMOVUPS (R11)(BX*4), Y3
	VCMPPS $13, Y10, Y3, Y3
	VANDPS Y0, Y1, Y0
	VANDPS Y2, Y3, Y2
	VANDPS Y0, Y2, Y0
	VMOVMSKPS Y0, AX
	MOVB AX, (DI)
	INCQ DI
	ADDQ $8, BX
	CMPQ BX, CX
	JLT  eight
	VZEROUPPER
	RET
