/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Member tables of what surrounds the house: climate, saw, purchase and the rack of offcuts. */
#include "config.h"

#include "engine/model/rod-house.h"

#include "engine/model/rod-member.h"

/* clang-format off */
static const RodMember site_members[] = {
  ROD_ROW (RodSite, air_coldest_c, NUMBER, .min = -60, .max = 60, .fallback = -20, .unit = "°C",
           .doc = "Coldest shade air."),
  ROD_ROW (RodSite, air_hottest_c, NUMBER, .min = -60, .max = 60, .fallback = 35, .unit = "°C",
           .doc = "Hottest shade air."),
  ROD_ROW (RodSite, fixing_c, NUMBER, .min = -40, .max = 60, .fallback = 15, .unit = "°C",
           .doc = "Temperature of the boards when they are cut and fixed."),
  ROD_ROW (RodSite, face_coldest_c, NUMBER, .min = -80, .max = 120, .fallback = ROD_NOT_GIVEN,
           .unit = "°C", .doc = "Coldest board; left out to be derived from the air."),
  ROD_ROW (RodSite, face_hottest_c, NUMBER, .min = -80, .max = 120, .fallback = ROD_NOT_GIVEN,
           .unit = "°C", .doc = "Hottest board; left out to be derived from air, sun and colour."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_site_type = {
  .name = "site",
  .doc = "Climate of the place.",
  .size = sizeof (RodSite),
  .members = site_members,
};

/* clang-format off */
static const RodMember saw_members[] = {
  ROD_ROW (RodSaw, kerf_mm, NUMBER, .max = 20, .fallback = 4, .unit = "mm",
           .doc = "Width of the cut."),
  ROD_ROW (RodSaw, end_trim_mm, NUMBER, .max = 500, .unit = "mm",
           .doc = "Lost at each end of a bar."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_saw_type = {
  .name = "saw",
  .doc = "The saw that cuts the bars.",
  .size = sizeof (RodSaw),
  .members = saw_members,
};

/* clang-format off */
static const RodMember buying_members[] = {
  ROD_ROW (RodBuying, currency, TEXT, .max = 3, .fallback_text = "EUR", .pattern = "[A-Z]{3}",
           .doc = "Currency of all prices, an ISO 4217 code."),
  ROD_ROW (RodBuying, spare_percent, NUMBER, .max = 100, .fallback = 3, .unit = "%",
           .doc = "Spare boards, in per cent of the bars."),
  ROD_ROW (RodBuying, spare_least, INTEGER, .max = 10000, .fallback = 2,
           .doc = "Least number of spare boards of each board and colour."),
  ROD_ROW (RodBuying, spare_trims, INTEGER, .max = 10000, .fallback = 1,
           .doc = "Spare bars of each trim."),
  ROD_ROW (RodBuying, spare_screws_percent, NUMBER, .max = 100, .fallback = 5, .unit = "%",
           .doc = "Spare screws, in per cent."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_buying_type = {
  .name = "buying",
  .doc = "How to order.",
  .size = sizeof (RodBuying),
  .members = buying_members,
};

/* clang-format off */
static const RodMember offcut_members[] = {
  ROD_ROW (RodOffcut, system, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the system."),
  ROD_ROW (RodOffcut, article, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the board, trim or batten."),
  ROD_ROW (RodOffcut, colour, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the board's colour; left out for trims and battens."),
  ROD_ROW (RodOffcut, length_mm, NUMBER, .flags = ROD_MEMBER_REQUIRED, .min = 1, .max = 20000,
           .unit = "mm", .doc = "Length."),
  ROD_ROW (RodOffcut, count, INTEGER, .min = 1, .max = 100000, .fallback = 1,
           .doc = "How many of this length."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_offcut_type = {
  .name = "offcut",
  .doc = "Lengths that the user owns already.",
  .size = sizeof (RodOffcut),
  .members = offcut_members,
};
