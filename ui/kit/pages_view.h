// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QtGui/QImage>
#include <QtWidgets/QWidget>
#include <vector>

namespace prillbook::ui {

// Pages under each other, as wide as there is room.
class PagesView : public QWidget {
  Q_OBJECT
 public:
  explicit PagesView(QWidget* parent = nullptr);
  void set_pages(std::vector<QImage> pages);
  int count() const { return int(pages_.size()); }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  int page_width() const;
  int page_height(const QImage& page) const;
  void fit();

  std::vector<QImage> pages_;
};

}  // namespace prillbook::ui
