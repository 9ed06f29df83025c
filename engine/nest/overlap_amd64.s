#include "textflag.h"

// func overlapAVX(s *pairSize, a *float32, an int, b *float32, bn int, dx, dy, enough float32) (sum float32, meet uint32)
//
// Eight circles of b against one of a at a time, in the order and with the
// roundings of overlapLanes.
TEXT ·overlapAVX(SB), NOSPLIT, $0-64
	MOVQ s+0(FP), AX
	MOVQ a+8(FP), SI
	MOVQ an+16(FP), CX
	MOVQ b+24(FP), DI
	MOVQ bn+32(FP), DX

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

next:
	VBROADCASTSS (SI), Y0
	VBROADCASTSS dx+40(FP), Y6
	VSUBPS Y6, Y0, Y0
	VBROADCASTSS (R9), Y1
	VBROADCASTSS dy+44(FP), Y6
	VSUBPS Y6, Y1, Y1
	VBROADCASTSS (R13), Y2
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
	VUCOMISS enough+48(FP), X7
	JLS  row
	VXORPS Y6, Y6, Y6
	VCMPPS $14, Y6, Y14, Y6
	VMOVMSKPS Y6, AX
	TESTL AX, AX
	JNZ  done

row:
	ADDQ $4, SI
	ADDQ $4, R9
	ADDQ $4, R13
	DECQ CX
	JNZ  next

done:
	VXORPS Y6, Y6, Y6
	VCMPPS $14, Y6, Y14, Y6
	VMOVMSKPS Y6, AX
	MOVSS X7, sum+56(FP)
	MOVL AX, meet+60(FP)
	VZEROUPPER
	RET
