// SPDX-License-Identifier: MIT
/** Length of the bar, 0 to 1: small margins are what matters, so it grows by the square root. */
export const reach = (margin: number): number => Math.sqrt(Math.min(1, Math.abs(margin)));
