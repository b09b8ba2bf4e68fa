// SPDX-License-Identifier: GPL-3.0-or-later
// Every seed and every input that once broke something, as it is and changed in some thousand ways, the same at each run. A
// fault stops the process. The long runs are libFuzzer's: the preset "fuzz".
#include <gmock/gmock.h>

#include <algorithm>
#include <filesystem>
#include <random>

#include "tests/fuzz/targets.h"
#include "tests/support/files.h"

namespace prillbook::fuzz {
namespace {

std::vector<std::string> inputs_of(const std::string& folder) {
  std::vector<std::string> paths, texts;
  if (!std::filesystem::exists(folder)) return {};
  for (const auto& entry : std::filesystem::directory_iterator(folder)) paths.push_back(entry.path().string());
  std::sort(paths.begin(), paths.end());
  for (const std::string& path : paths) texts.push_back(testing_support::file_text(path));
  return texts;
}

std::vector<std::string> inputs(const std::string& name) {
  const std::string tests = std::string(PRILLBOOK_SOURCE_DIR) + "/tests/";
  std::vector<std::string> all = inputs_of(tests + "fuzz/seeds/" + name);
  for (std::string& broken : inputs_of(tests + "broken/" + name)) all.push_back(std::move(broken));
  return all;
}

class Changer {
 public:
  explicit Changer(const std::vector<std::string>& inputs) : inputs_(inputs) {}

  std::string next() {
    std::string text = any();
    for (int times = 1 + int(dice_() % 6); times > 0; --times) change(text);
    return text;
  }

 private:
  const std::string& any() { return inputs_[dice_() % inputs_.size()]; }
  std::size_t place(const std::string& text) { return text.empty() ? 0 : dice_() % text.size(); }

  void change(std::string& text) {
    static constexpr std::string_view telling = "0123456789.,-+eE\"{}[]: ;\t\r\n\0\xEF\xBB\xBF\xFF%<";
    switch (dice_() % 6) {
      case 0: text.insert(place(text), 1, telling[dice_() % telling.size()]); break;
      case 1: text.insert(place(text), 1, char(dice_())); break;
      case 2: text.erase(place(text), 1 + dice_() % 4); break;
      case 3:
        if (!text.empty()) text[place(text)] = char(dice_());
        break;
      case 4: text.insert(place(text), text.substr(place(text), dice_() % 16)); break;
      default: {
        const std::string& other = any();
        text = text.substr(0, place(text)) + other.substr(place(other));
      }
    }
  }

  const std::vector<std::string>& inputs_;
  std::mt19937 dice_{20'260'504};
};

class Fuzz : public testing::TestWithParam<NamedTarget> {};

TEST_P(Fuzz, KeptInputsAndChangedOnes) {
  const auto [name, run, changes] = GetParam();
  const auto known = inputs(name);
  ASSERT_FALSE(known.empty()) << name;
  for (const std::string& input : known) run(input);
  Changer changer(known);
  for (int i = 0; i < changes; ++i) run(changer.next());
}

INSTANTIATE_TEST_SUITE_P(EveryDoor, Fuzz, testing::ValuesIn(targets()), [](const auto& made) { return made.param.name; });

TEST(FuzzDeathTest, ADemandThatDoesNotHoldStopsTheProcess) {
  EXPECT_DEATH(demand(false, "water runs uphill"), "demanded: water runs uphill");
}

}  // namespace
}  // namespace prillbook::fuzz
