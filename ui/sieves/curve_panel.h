// SPDX-License-Identifier: GPL-3.0-or-later
// The curve of an analysis with its figures in words; laws, other curves, metal by size and grinds stay folded.
#pragma once

#include <QtWidgets/QWidget>
#include <set>
#include <vector>

#include "core/results/sample_result.h"
#include "ui/kit/session.h"
#include "ui/kit/size_curve.h"

class QLabel;
class QVBoxLayout;

namespace prillbook::ui {

class Fold;
class IntervalScale;
class PressButton;
class TextField;

class CurvePanel : public QWidget {
  Q_OBJECT
 public:
  explicit CurvePanel(Session& session, QWidget* parent = nullptr);
  // `live` may differ from what `result` holds of it: it is the analysis as it is being typed.
  void show_size(const results::SampleRecord& record, const results::SampleResult& result, const results::SizeResult& live,
                 const std::vector<SieveRow>& so_far);
  CurveView* view() const { return view_; }

 signals:
  void said(const QString& words);
  void fractions_wanted();
  void sheet_wanted();

 private:
  QWidget* build_files();
  QWidget* build_others();
  QWidget* build_metal();
  QWidget* build_grinds();
  void redraw();
  void show_others();
  void show_metal();
  void show_grinds();
  Result<void> add_other(const std::optional<std::string>& number);
  void save(bool svg);
  SizeCurve curve_of(const results::SizeResult& size, const QString& label) const;

  Session& session_;
  results::SampleResult result_;
  results::SizeResult live_;
  std::vector<SieveRow> so_far_;
  SampleId sample_;
  std::set<RecordId> beside_;                   // analyses of this sample shown beside
  std::vector<results::SizeResult> strangers_;  // of other samples
  CurveView* view_;
  QWidget* files_;
  QLabel* words_;
  QLabel* laws_words_;
  Fold* laws_;
  Fold* others_;
  QVBoxLayout* others_list_ = nullptr;
  TextField* another_ = nullptr;
  Fold* metal_;
  QVBoxLayout* metal_list_ = nullptr;
  PressButton* make_fractions_ = nullptr;
  Fold* grinds_;
  QLabel* grind_words_ = nullptr;
  IntervalScale* grind_scale_ = nullptr;
};

}  // namespace prillbook::ui
