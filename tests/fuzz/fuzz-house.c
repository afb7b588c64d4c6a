/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fuzz target of the house reader: whatever the bytes, reading ends with a house or with an error
 * that names a place, and a house that was accepted is written and read back as the same. */
#include "fuzz-target.h"

#include "engine/files/rod-file.h"

static void
check_refusal (const GError *error)
{
  g_assert_nonnull (error);
  g_assert_true (error->domain == ROD_FILE_ERROR);
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
}

static void
check_house (const RodHouse *house)
{
  g_autoptr (JsonNode) node = rod_record_to_json (house);
  g_autofree char *text = rod_json_text (node);
  g_autoptr (GError) error = NULL;
  g_autoptr (RodHouse) again = rod_house_parse (text, -1, NULL, &error);

  g_assert_no_error (error);
  g_assert_true (rod_record_equal (house, again));
}

int
LLVMFuzzerTestOneInput (const uint8_t *data,
                        size_t         size)
{
  /* A copy without room after it, so that reading past the end is seen. */
  g_autofree char *text = g_memdup2 (data, size);
  g_autoptr (GError) error = NULL;
  g_autoptr (RodHouse) house = rod_house_parse (text != NULL ? text : "",
                                                (gssize) size,
                                                NULL,
                                                &error);

  if (house == NULL)
    check_refusal (error);
  else
    check_house (house);
  return 0;
}
