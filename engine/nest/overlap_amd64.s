#include "textflag.h"

// func overlapAVX(s *pairSize, a *float32, an int, b *float32, bn int, box *[4]float32, dx, dy, enough float32) (sum float32, meet uint32)
//
// Eight circles of b against one of a at a time, in the order and with the
// roundings of overlapLanes.
TEXT ·overlapAVX(SB), NOSPLIT, $0-72
	MOVQ s+0(FP), AX
	MOVQ a+8(FP), SI
	MOVQ an+16(FP), CX
	MOVQ b+24(FP), DI
	MOVQ bn+32(FP), DX
	MOVQ box+40(FP), R15

	// The planes x, y and r of each are a multiple of eight long.
	MOVQ CX, R8
	ADDQ $7, R8
	ANDQ $-8, R8
	SHLQ $2, R8
	LEAQ (SI)(R8*1), R9
	LEAQ (SI)(R8*2), R13
	ADDQ $7, DX
	ANDQ $-8, DX
	SHLQ $2, DX
	LEAQ (DI)(DX*1), R10
	LEAQ (DI)(DX*2), R11

	VBROADCASTSS 0(AX), Y8   // tail
	VBROADCASTSS 4(AX), Y9   // eps
	VBROADCASTSS 8(AX), Y10  // ε²
	VBROADCASTSS 12(AX), Y11 // 2ε
	VBROADCASTSS 16(AX), Y12 // least
	VXORPS Y13, Y13, Y13     // the sum, in eight lanes
	VXORPS Y14, Y14, Y14     // the deepest
	VXORPS X7, X7, X7        // the sum

	// Which of eight circles of a reach into the box about those of b.
group:
	VBROADCASTSS dx+48(FP), Y6
	VMOVUPS (SI), Y0
	VSUBPS Y6, Y0, Y0
	VBROADCASTSS dy+52(FP), Y6
	VMOVUPS (R9), Y1
	VSUBPS Y6, Y1, Y1
	VMOVUPS (R13), Y2
	VADDPS Y8, Y2, Y2
	VADDPS Y2, Y0, Y3
	VBROADCASTSS 0(R15), Y4
	VCMPPS $14, Y4, Y3, Y15
	VSUBPS Y2, Y0, Y3
	VBROADCASTSS 4(R15), Y4
	VCMPPS $1, Y4, Y3, Y3
	VANDPS Y3, Y15, Y15
	VADDPS Y2, Y1, Y3
	VBROADCASTSS 8(R15), Y4
	VCMPPS $14, Y4, Y3, Y3
	VANDPS Y3, Y15, Y15
	VSUBPS Y2, Y1, Y3
	VBROADCASTSS 12(R15), Y4
	VCMPPS $1, Y4, Y3, Y3
	VANDPS Y3, Y15, Y15
	VMOVMSKPS Y15, R8
	TESTL R8, R8
	JZ   past

one:
	BSFL R8, BX
	LEAL -1(R8), AX
	ANDL AX, R8
	VBROADCASTSS (SI)(BX*4), Y0
	VBROADCASTSS dx+48(FP), Y6
	VSUBPS Y6, Y0, Y0
	VBROADCASTSS (R9)(BX*4), Y1
	VBROADCASTSS dy+52(FP), Y6
	VSUBPS Y6, Y1, Y1
	VBROADCASTSS (R13)(BX*4), Y2
	XORQ BX, BX
	XORL R12, R12

eight:
	VMOVUPS (DI)(BX*1), Y3
	VSUBPS Y0, Y3, Y3
	VMOVUPS (R10)(BX*1), Y4
	VSUBPS Y1, Y4, Y4
	VMULPS Y3, Y3, Y3
	VMULPS Y4, Y4, Y4
	VADDPS Y4, Y3, Y3        // distance²
	VMOVUPS (R11)(BX*1), Y5
	VADDPS Y2, Y5, Y4        // r1 + r2
	VADDPS Y8, Y4, Y15
	VMULPS Y15, Y15, Y15
	VCMPPS $1, Y15, Y3, Y15  // near enough to count
	VMOVMSKPS Y15, AX
	TESTL AX, AX
	JZ   far
	ORL  AX, R12
	VSQRTPS Y3, Y3
	VSUBPS Y3, Y4, Y4        // d
	VMINPS Y2, Y5, Y5
	VMAXPS Y4, Y14, Y14
	VSUBPS Y4, Y11, Y3
	VDIVPS Y3, Y10, Y3       // ε² / (2ε − d)
	VCMPPS $13, Y9, Y4, Y6
	VBLENDVPS Y6, Y4, Y3, Y3
	VSUBPS Y12, Y3, Y3
	VMULPS Y5, Y3, Y3
	VANDPS Y15, Y3, Y3
	VADDPS Y3, Y13, Y13

far:
	ADDQ $32, BX
	CMPQ BX, DX
	JLT  eight

	TESTL R12, R12
	JZ   row
	VEXTRACTF128 $1, Y13, X7
	VADDPS X13, X7, X7
	VMOVHLPS X7, X7, X3
	VADDPS X3, X7, X7
	VMOVSHDUP X7, X3
	VADDSS X3, X7, X7
	VUCOMISS enough+56(FP), X7
	JLS  row
	VXORPS Y6, Y6, Y6
	VCMPPS $14, Y6, Y14, Y6
	VMOVMSKPS Y6, AX
	TESTL AX, AX
	JNZ  done

row:
	TESTL R8, R8
	JNZ  one

past:
	ADDQ $32, SI
	ADDQ $32, R9
	ADDQ $32, R13
	SUBQ $8, CX
	JGT  group

done:
	VXORPS Y6, Y6, Y6
	VCMPPS $14, Y6, Y14, Y6
	VMOVMSKPS Y6, AX
	MOVSS X7, sum+64(FP)
	MOVL AX, meet+68(FP)
	VZEROUPPER
	RET
