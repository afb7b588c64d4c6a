/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks what the parts of a system say about each other. */
#include "config.h"

#include "engine/files/rod-house-check.h"

#include "engine/files/rod-json.h"
#include "engine/files/rod-reference.h"

#include <glib/gi18n-lib.h>
#include <math.h>

gboolean
rod_check_order (double              low,
                 double              high,
                 const RodJsonPlace *place,
                 const char         *low_name,
                 const char         *high_name,
                 GError            **error)
{
  RodJsonPlace     inner = rod_json_place_member (place, low_name);
  g_autofree char *low_text = NULL;
  g_autofree char *high_text = NULL;

  if (isnan (low) || isnan (high) || low <= high)
    return TRUE;

  low_text = rod_json_number (low);
  high_text = rod_json_number (high);
  return rod_json_place_refuse (&inner,
                                ROD_FILE_ERROR_MEMBER,
                                error,
                                _ ("found %s, which is above %s = %s. Exchange or correct them."),
                                low_text,
                                high_name,
                                high_text);
}

/* Boards, trims and battens are articles of one order list, where an id must name one of them. The
 * two battens may be the same article. */
static gboolean
check_articles (const RodSystem    *system,
                const RodJsonPlace *place,
                GError            **error)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  const GPtrArray *lists[] = { system->boards, system->trims };
  const char      *names[] = { "boards", "trims" };
  RodJsonPlace     batten_place = rod_json_place_member (place, "batten");
  RodJsonPlace     batten_id = rod_json_place_member (&batten_place, "id");
  RodJsonPlace     counter_place = rod_json_place_member (place, "counter_batten");
  RodJsonPlace     counter_id = rod_json_place_member (&counter_place, "id");

  for (guint list = 0; list < G_N_ELEMENTS (lists); list++)
    {
      RodJsonPlace list_place = rod_json_place_member (place, names[list]);

      for (guint i = 0; i < lists[list]->len; i++)
        {
          RodJsonPlace item = rod_json_place_item (&list_place, i);
          RodJsonPlace id_place = rod_json_place_member (&item, "id");

          if (!rod_check_id_is_new (ids, rod_record_id (lists[list]->pdata[i]), &id_place, error))
            return FALSE;
        }
    }

  if (!rod_check_id_is_new (ids, system->batten->id, &batten_id, error))
    return FALSE;
  return system->counter_batten == NULL ||
         rod_record_equal (system->batten, system->counter_batten) ||
         rod_check_id_is_new (ids, system->counter_batten->id, &counter_id, error);
}

static gboolean
check_rule (const RodTrimRule  *rule,
            const RodSystem    *system,
            const RodJsonPlace *place,
            GError            **error)
{
  RodJsonPlace beside_place = rod_json_place_member (place, "beside");

  if (!rod_check_reference (rule->trim,
                            system->trims,
                            _ ("trim in the system"),
                            place,
                            "trim",
                            error))
    return FALSE;
  if (!rod_check_order (rule->starter_low_mm,
                        rule->starter_high_mm,
                        place,
                        "starter_low_mm",
                        "starter_high_mm",
                        error))
    return FALSE;

  for (guint i = 0; i < rule->beside->len; i++)
    {
      RodJsonPlace item = rod_json_place_item (&beside_place, i);

      if (rod_system_find_trim (system, rule->beside->pdata[i]) == NULL)
        return rod_refuse_reference (rule->beside->pdata[i],
                                     system->trims,
                                     _ ("trim in the system"),
                                     &item,
                                     error);
    }
  return TRUE;
}

static gboolean
check_rules (const RodSystem    *system,
             const RodJsonPlace *place,
             GError            **error)
{
  RodJsonPlace rules_place = rod_json_place_member (place, "trim_rules");

  for (guint i = 0; i < system->trim_rules->len; i++)
    {
      RodJsonPlace item = rod_json_place_item (&rules_place, i);

      if (!check_rule (system->trim_rules->pdata[i], system, &item, error))
        return FALSE;
    }
  return TRUE;
}

/* Only columns may have a trim at every joint. */
static gboolean
check_joints (const RodRules     *rules,
              const RodJsonPlace *place,
              GError            **error)
{
  RodJsonPlace rules_place = rod_json_place_member (place, "rules");
  RodJsonPlace pattern_place = rod_json_place_member (&rules_place, "joint_pattern");

  if (rules->joint_pattern == ROD_JOINTS_COLUMNS || rules->butt_joints != ROD_BUTT_NEVER)
    return TRUE;
  return rod_json_place_refuse (&pattern_place,
                                ROD_FILE_ERROR_MEMBER,
                                error,
                                _ ("found \"%s\", but boards of this system never meet without a "
                                   "trim. Write \"columns\", or say in \"butt_joints\" where "
                                   "they may."),
                                rod_joint_pattern_choices[rules->joint_pattern].nick);
}

/* A system inside a house stands there whole, and is no file. */
static gboolean
check_origin (const RodSystem    *system,
              const RodJsonPlace *place,
              GError            **error)
{
  RodJsonPlace     from_place = rod_json_place_member (place, "from");
  RodJsonPlace     format_place = rod_json_place_member (place, "format");
  g_autofree char *found = NULL;

  if (*system->from != '\0')
    {
      found = rod_json_quote (system->from);
      return rod_json_place_refuse (&from_place,
                                    ROD_FILE_ERROR_MEMBER,
                                    error,
                                    _ ("found %s beside the system itself. Remove one of them."),
                                    found);
    }
  if (*system->format != '\0' && !g_str_equal (system->format, rod_system_type.format))
    {
      found = rod_json_quote (system->format);
      return rod_json_place_refuse (&format_place,
                                    ROD_FILE_ERROR_FORMAT,
                                    error,
                                    _ ("found %s; allowed: \"%s\". Correct it or leave it out."),
                                    found,
                                    rod_system_type.format);
    }
  return TRUE;
}

gboolean
rod_system_check (const RodSystem    *system,
                  const RodJsonPlace *place,
                  GError            **error)
{
  g_return_val_if_fail (system != NULL && place != NULL, FALSE);

  return check_origin (system, place, error) && check_articles (system, place, error) &&
         check_rules (system, place, error) &&
         check_joints (system->rules, place, error) &&
         rod_check_reference (system->joint_trim,
                              system->trims,
                              _ ("trim in the system"),
                              place,
                              "joint_trim",
                              error) &&
         rod_check_reference (system->board_fixing,
                              system->fixings,
                              _ ("screw in the system"),
                              place,
                              "board_fixing",
                              error) &&
         rod_check_reference (system->trim_fixing,
                              system->fixings,
                              _ ("screw in the system"),
                              place,
                              "trim_fixing",
                              error) &&
         rod_check_order (system->moisture_low,
                          system->moisture_fixed,
                          place,
                          "moisture_low",
                          "moisture_fixed",
                          error) &&
         rod_check_order (system->moisture_fixed,
                          system->moisture_high,
                          place,
                          "moisture_fixed",
                          "moisture_high",
                          error);
}
