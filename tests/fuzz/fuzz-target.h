/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <stddef.h>
#include <stdint.h>

/**
 * LLVMFuzzerTestOneInput:
 * @data: bytes
 * @size: how many
 *
 * What a fuzz target provides; called by libFuzzer, or by replay.c in an ordinary test run.
 *
 * Returns: 0
 */
int LLVMFuzzerTestOneInput (const uint8_t *data,
                            size_t         size);
