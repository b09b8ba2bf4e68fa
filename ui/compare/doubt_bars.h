// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

namespace prillbook::ui {

// What a doubt comes from, ranked: words over a bar as long as its share.
class DoubtBars : public QWidget {
  Q_OBJECT
 public:
  struct Line {
    QString words;
    double share_pct = 0;
  };

  explicit DoubtBars(QWidget* parent = nullptr);
  void set_lines(std::vector<Line> lines);
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override { return {20 * 8, sizeHint().height()}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  std::vector<Line> lines_;
};

}  // namespace prillbook::ui
