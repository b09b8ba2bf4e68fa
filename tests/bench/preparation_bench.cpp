// SPDX-License-Identifier: GPL-3.0-or-later
// The crushing order of a thousand waiting samples against a plain sort of them, and the mass picture of 500 portions.
#include <fmt/format.h>

#include <QtGui/QImage>
#include <QtGui/QPainter>
#include <QtWidgets/QApplication>
#include <algorithm>
#include <chrono>
#include <random>

#include "core/preparation/crushing_order.h"
#include "ui/preparation/mass_picture.h"

namespace prillbook {
namespace {

template <class Work>
double best_ms(Work&& work) {
  double best = 1e9;
  for (int round = 0; round < 20; ++round) {
    const auto start = std::chrono::steady_clock::now();
    work();
    best = std::min(best, std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
  }
  return best;
}

std::vector<WaitingRock> thousand_samples() {
  std::mt19937 dice(7);
  std::lognormal_distribution<double> grade(1.0, 1.5);
  std::uniform_real_distribution<double> mass(500, 6000);
  std::vector<WaitingRock> rocks;
  for (int i = 0; i < 1000; ++i) rocks.push_back({i, Mass(mass(dice), unit::gram), Grade(grade(dice), unit::gram_per_tonne), {}});
  return rocks;
}

std::vector<milling::Reach> picture_of(int portions) {
  milling::FlowInput input;
  input.sample = SampleId{1};
  input.number = "26-0001";
  input.mass = *readings::parse("100 kg", {});
  for (int i = 1; i <= portions; ++i) {
    portions::Portion portion;
    portion.id = PortionId{i};
    portion.sample = input.sample;
    portion.parent = PortionId{i < 5 ? 0 : i / 5};
    portion.number = i;
    portion.purpose = "split";
    portion.mass = *readings::parse("100 g", {});
    portion.cut_at = Instant{i * 60'000, 0};
    input.portions.push_back(std::move(portion));
  }
  return milling::flow_of(input);
}

void bench_order() {
  const auto rocks = thousand_samples();
  OrderRules rules;
  rules.holdup = Mass(20, unit::gram);
  rules.held = {rules.holdup, Grade(50, unit::gram_per_tonne)};
  rules.floor = Grade(0.1, unit::gram_per_tonne);
  rules.flush = Mass(500, unit::gram);
  std::size_t places = 0;
  const double order = best_ms([&] { places = crushing_order(rocks, rules)->places.size(); });
  const double arrival = best_ms([&] { places += as_given(rocks, rules)->places.size(); });
  const double sort = best_ms([&] {
    auto sorted = rocks;
    std::stable_sort(sorted.begin(), sorted.end(), [](const auto& a, const auto& b) { return a.grade < b.grade; });
    places += sorted.size();
  });
  fmt::print("crushing order of 1000 samples: {:.2f} ms, {:.1f} times a plain sort ({:.3f} ms); arrival order {:.2f} ms [{}]\n",
             order, order / sort, sort, arrival, places);
}

void bench_picture() {
  const auto reaches = picture_of(500);
  milling::FlowLayout layout;
  const double lay = best_ms([&] { layout = milling::lay_out(reaches); });
  QImage image(1280, 720, QImage::Format_ARGB32_Premultiplied);
  const auto paint = [&](bool clipped) {
    return best_ms([&] {
      QPainter painter(&image);
      if (clipped) painter.setClipRect(0, 0, image.width(), image.height());
      ui::paint_flow(painter, reaches, layout, {});
    });
  };
  fmt::print("mass picture of 500 portions, {} reaches: layout {:.2f} ms, paint {:.2f} ms whole, {:.2f} ms what is in sight\n",
             reaches.size(), lay, paint(false), paint(true));
}

}  // namespace
}  // namespace prillbook

int main(int count, char** words) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  QApplication application(count, words);
  prillbook::bench_order();
  prillbook::bench_picture();
}
