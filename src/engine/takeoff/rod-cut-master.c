/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The set-covering program of Gilmore and Gomory (1961), solved by GLPK's simplex.
 *
 * Rows 1 to n_sizes ask for pieces; the rows after them keep limited sources within their limits.
 * Column j is pattern j − 1. After new columns the last basis stays feasible for the primal
 * simplex, after new right-hand sides for the dual, so each solve starts where the last one
 * ended.
 *
 * GLPK 5.0 as built by Debian keeps its environment per thread, so masters of different threads do
 * not meet. */

#include "engine/takeoff/rod-cut-master.h"

#include <glpk.h>

/* Simplex steps allowed in one solve, by row: about ten times what hard ones need. Without a limit
 * GLPK has been seen not to return for minutes. */
#define STEPS_PER_ROW 50
#define MIN_STEPS 2000

/* A simplex step costs about this many rows per microsecond. */
#define ROWS_PER_EFFORT 4

struct _RodCutMaster
{
  const RodCutJob *job;
  glp_prob        *lp;
  GPtrArray       *patterns;   /* of RodCutPattern */
  int             *limit_rows; /* row of each source, 0 where unlimited */
  gboolean         rest_changed;
  GArray          *root_basis; /* of int: state of each row, then of each column */
  guint            n_root_patterns;
  gint64           effort;
};

static void
set_limit (RodCutMaster *self,
           guint         source,
           int           limit)
{
  int row = self->limit_rows[source];

  if (row != 0)
    glp_set_row_bnds (self->lp, row, limit == ROD_CUT_UNLIMITED ? GLP_FR : GLP_UP, 0, limit);
}

static void
add_rows (RodCutMaster *self)
{
  const RodCutJob *job = self->job;

  glp_add_rows (self->lp, (int) job->n_sizes);
  for (guint i = 0; i < job->n_sizes; i++)
    glp_set_row_bnds (self->lp, (int) i + 1, GLP_LO, job->sizes[i].count, 0);

  for (guint k = 0; k < job->n_sources; k++)
    {
      /* One source alone never runs out, the bars nobody has do not either. */
      if (job->n_sources == 1 || job->sources[k].stock == ROD_CUT_NO_STOCK)
        continue;
      self->limit_rows[k] = glp_add_rows (self->lp, 1);
      set_limit (self, k, job->sources[k].limit);
    }
}

static void
add_single_piece (RodCutMaster *self,
                  guint         size,
                  guint         source)
{
  RodCutPart part = { size, 1 };
  g_autoptr (RodCutPattern) pattern = rod_cut_pattern_new (source, &part, 1);

  rod_cut_master_add (self, pattern);
}

/* One piece in a bar, for every size: in a bar nobody has, so that there is a solution whatever the
 * limits, and in a bar of the cheapest source without limit. The cheaper of these are the first
 * basis: all rows of sizes at their bounds, rows of limits free. */
static void
add_single_pieces (RodCutMaster *self)
{
  const RodCutJob *job = self->job;
  guint            last = job->n_sources - 1;

  for (guint i = 0; i < job->n_sizes; i++)
    {
      guint best = last;

      for (guint k = 0; k < last; k++)
        {
          if (job->sources[k].limit == ROD_CUT_UNLIMITED &&
              job->sources[k].width >= job->sizes[i].width &&
              job->sources[k].price < job->sources[best].price)
            best = k;
        }
      if (best != last)
        add_single_piece (self, i, last);
      add_single_piece (self, i, best);
      glp_set_row_stat (self->lp, (int) i + 1, GLP_NL);
      glp_set_col_stat (self->lp, (int) self->patterns->len, GLP_BS);
    }
}

RodCutMaster *
rod_cut_master_new (const RodCutJob *job)
{
  RodCutMaster *self;

  g_return_val_if_fail (job != NULL, NULL);

  glp_term_out (GLP_OFF);
  self = g_new0 (RodCutMaster, 1);
  self->job = job;
  self->lp = glp_create_prob ();
  self->patterns = g_ptr_array_new_with_free_func ((GDestroyNotify) rod_cut_pattern_unref);
  self->limit_rows = g_new0 (int, job->n_sources);
  self->root_basis = g_array_new (FALSE, FALSE, sizeof (int));
  glp_set_obj_dir (self->lp, GLP_MIN);
  add_rows (self);
  add_single_pieces (self);
  return self;
}

void
rod_cut_master_free (RodCutMaster *self)
{
  if (self == NULL)
    return;
  glp_delete_prob (self->lp);
  g_ptr_array_unref (self->patterns);
  g_free (self->limit_rows);
  g_array_unref (self->root_basis);
  g_free (self);
}

void
rod_cut_master_leave_thread (void)
{
  glp_free_env ();
}

void
rod_cut_master_add (RodCutMaster  *self,
                    RodCutPattern *pattern)
{
  int                column = glp_add_cols (self->lp, 1);
  int                limit_row = self->limit_rows[pattern->source];
  g_autofree int    *rows = g_new (int, pattern->n_parts + 2);
  g_autofree double *values = g_new (double, pattern->n_parts + 2);
  int                n = 0;

  /* GLPK counts from 1. */
  for (guint i = 0; i < pattern->n_parts; i++)
    {
      n++;
      rows[n] = (int) pattern->parts[i].size + 1;
      values[n] = pattern->parts[i].count;
    }
  if (limit_row != 0)
    {
      n++;
      rows[n] = limit_row;
      values[n] = 1;
    }
  glp_set_mat_col (self->lp, column, n, rows, values);
  glp_set_obj_coef (self->lp, column, (double) self->job->sources[pattern->source].price);
  glp_set_col_bnds (self->lp, column, GLP_LO, 0, 0);
  glp_set_col_stat (self->lp, column, GLP_NL);
  g_ptr_array_add (self->patterns, rod_cut_pattern_ref (pattern));
}

void
rod_cut_master_set_rest (RodCutMaster     *self,
                         const RodCutRest *rest)
{
  for (guint i = 0; i < self->job->n_sizes; i++)
    glp_set_row_bnds (self->lp, (int) i + 1, GLP_LO, rest->counts[i], 0);
  for (guint k = 0; k < self->job->n_sources; k++)
    set_limit (self, k, rest->limits[k]);
  for (guint j = 0; j < self->patterns->len; j++)
    {
      gboolean usable = rod_cut_rest_room_for (rest, self->patterns->pdata[j]) > 0;

      glp_set_col_bnds (self->lp, (int) j + 1, usable ? GLP_LO : GLP_FX, 0, 0);
    }
  self->rest_changed = TRUE;
}

void
rod_cut_master_keep_root (RodCutMaster *self)
{
  self->n_root_patterns = self->patterns->len;
  g_array_set_size (self->root_basis, 0);
  for (int i = 1; i <= glp_get_num_rows (self->lp); i++)
    {
      int state = glp_get_row_stat (self->lp, i);

      g_array_append_val (self->root_basis, state);
    }
  for (int j = 1; j <= (int) self->patterns->len; j++)
    {
      int state = glp_get_col_stat (self->lp, j);

      g_array_append_val (self->root_basis, state);
    }
}

void
rod_cut_master_return_to_root (RodCutMaster *self)
{
  int n_rows = glp_get_num_rows (self->lp);
  int n_added = (int) (self->patterns->len - self->n_root_patterns);

  g_return_if_fail (self->root_basis->len > 0);

  if (n_added > 0)
    {
      g_autofree int *columns = g_new (int, n_added + 1);

      for (int j = 1; j <= n_added; j++)
        columns[j] = (int) self->n_root_patterns + j;
      glp_del_cols (self->lp, n_added, columns);
      g_ptr_array_set_size (self->patterns, (int) self->n_root_patterns);
    }
  for (int i = 1; i <= n_rows; i++)
    glp_set_row_stat (self->lp, i, g_array_index (self->root_basis, int, i - 1));
  for (int j = 1; j <= (int) self->n_root_patterns; j++)
    glp_set_col_stat (self->lp, j, g_array_index (self->root_basis, int, n_rows + j - 1));
}

static gboolean
run_simplex (RodCutMaster *self,
             int           method)
{
  int      n_rows = glp_get_num_rows (self->lp);
  int      before = glp_get_it_cnt (self->lp);
  glp_smcp options;
  int      failed;

  glp_init_smcp (&options);
  options.msg_lev = GLP_MSG_OFF;
  options.meth = method;
  options.it_lim = MAX (MIN_STEPS, STEPS_PER_ROW * n_rows);
  failed = glp_simplex (self->lp, &options);
  self->effort += (glp_get_it_cnt (self->lp) - before + 1) * (n_rows / ROWS_PER_EFFORT + 1);
  return failed == 0 && glp_get_status (self->lp) == GLP_OPT;
}

gboolean
rod_cut_master_solve (RodCutMaster *self)
{
  int method = self->rest_changed ? GLP_DUALP : GLP_PRIMAL;

  self->rest_changed = FALSE;
  if (run_simplex (self, method))
    return TRUE;

  /* A basis gone bad: start afresh once. */
  glp_adv_basis (self->lp, 0);
  return run_simplex (self, GLP_PRIMAL);
}

double
rod_cut_master_get_cost (const RodCutMaster *self)
{
  return glp_get_obj_val (self->lp);
}

double
rod_cut_master_get_worth (const RodCutMaster *self,
                          guint               size)
{
  return MAX (0, glp_get_row_dual (self->lp, (int) size + 1));
}

double
rod_cut_master_get_price (const RodCutMaster *self,
                          guint               source)
{
  double price = (double) self->job->sources[source].price;

  if (self->limit_rows[source] == 0)
    return price;
  return price - MIN (0, glp_get_row_dual (self->lp, self->limit_rows[source]));
}

guint
rod_cut_master_get_n_patterns (const RodCutMaster *self)
{
  return self->patterns->len;
}

RodCutPattern *
rod_cut_master_get_pattern (const RodCutMaster *self,
                            guint               index)
{
  g_return_val_if_fail (index < self->patterns->len, NULL);

  return self->patterns->pdata[index];
}

double
rod_cut_master_get_amount (const RodCutMaster *self,
                           guint               index)
{
  return glp_get_col_prim (self->lp, (int) index + 1);
}

gint64
rod_cut_master_get_effort (const RodCutMaster *self)
{
  return self->effort;
}
