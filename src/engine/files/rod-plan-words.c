/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words in files for enumerations of the plan: never translated, never changed. Those of the model
 * are in the model's own tables.
 */
#include "config.h"

#include "engine/files/rod-plan-words.h"

const char *
rod_severity_nick (RodSeverity severity)
{
  static const RodChoice choices[] = {
    { ROD_SEVERITY_NOTE, "note", NULL },
    { ROD_SEVERITY_SHOULD, "should", NULL },
    { ROD_SEVERITY_MUST, "must", NULL },
    { 0, NULL, NULL },
  };

  return rod_choice_nick (choices, (int) severity);
}

const char *
rod_article_kind_nick (RodArticleKind kind)
{
  static const RodChoice choices[] = {
    { ROD_ARTICLE_BOARD, "board", NULL },
    { ROD_ARTICLE_TRIM, "trim", NULL },
    { ROD_ARTICLE_BATTEN, "batten", NULL },
    { ROD_ARTICLE_FIXING, "fixing", NULL },
    { 0, NULL, NULL },
  };

  return rod_choice_nick (choices, (int) kind);
}

char **
rod_batten_use_nicks (guint uses)
{
  static const RodChoice choices[] = {
    { ROD_BATTEN_EDGE, "edge", NULL },
    { ROD_BATTEN_OPENING, "opening", NULL },
    { ROD_BATTEN_CORNER, "corner", NULL },
    { ROD_BATTEN_JOINT, "joint", NULL },
  };
  g_autoptr (GStrvBuilder) nicks = g_strv_builder_new ();

  for (guint i = 0; i < G_N_ELEMENTS (choices); i++)
    if ((uses & (guint) choices[i].value) != 0)
      g_strv_builder_add (nicks, choices[i].nick);
  return g_strv_builder_end (nicks);
}
