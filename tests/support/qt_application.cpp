// SPDX-License-Identifier: GPL-3.0-or-later
// The application that tests of widgets need, made once before the first of them.
#include <gtest/gtest.h>

#include <QtWidgets/QApplication>
#include <clocale>
#include <memory>

#include "ui/kit/theme.h"

namespace {

class ApplicationEnvironment : public testing::Environment {
 public:
  void SetUp() override {
    static int count = 1;
    static char name[] = "test";
    static char* arguments[] = {name, nullptr};
    application_ = std::make_unique<QApplication>(count, arguments);
    std::setlocale(LC_NUMERIC, "C");
    theme_ = std::make_unique<prillbook::ui::Theme>(*application_, prillbook::ui::Shade::light);
  }
  void TearDown() override {
    theme_.reset();
    application_.reset();
  }

 private:
  std::unique_ptr<QApplication> application_;
  std::unique_ptr<prillbook::ui::Theme> theme_;
};

const auto* const environment = testing::AddGlobalTestEnvironment(new ApplicationEnvironment);

}  // namespace
