// SPDX-License-Identifier: GPL-3.0-or-later
// Compares every #include under core/, ui/ and app/ with docs/layers.txt; first, that the comparison finds what it should.
#include <gmock/gmock.h>

#include "tests/base/layer_rules.h"

namespace prillbook::testing_support {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const std::vector<LayerRow> house = {
    {"core/base", {}, {"fmt"}},
    {"core/units", {"core/base"}, {}},
    {"ui/kit", {"core/units"}, {"QtCore", "QtWidgets"}},
};

std::string small_qt(std::string_view header) {
  if (header == "QString") return "QtCore";
  if (header == "QLabel" || header == "QtWidgets/QLabel") return "QtWidgets";
  return header == "QChart" ? "QtCharts" : "";
}

Faults faults_of(const std::string& path, const std::string& text) { return include_faults(house, {{path, text}}, small_qt); }

TEST(LayerIncludes, AllowedOnesPass) {
  EXPECT_THAT(faults_of("core/units/a.cpp", "#include \"core/units/a.h\"\n#include \"core/base/id.h\"\n#include <vector>\n"),
              IsEmpty());
  EXPECT_THAT(faults_of("core/base/a.cpp", "#include <fmt/format.h>\n"), IsEmpty());
  EXPECT_THAT(faults_of("ui/kit/a.cpp", "#include <QString>\n#include <QtWidgets/QLabel>\n#include \"a.moc\"\n"), IsEmpty());
}

struct Forbidden {
  const char* path;
  const char* text;
  const char* fault;
};

class LayerIncludeForbidden : public testing::TestWithParam<Forbidden> {};

TEST_P(LayerIncludeForbidden, IsFoundOnItsLine) {
  const auto [path, text, fault] = GetParam();
  EXPECT_THAT(faults_of(path, "// a comment\n" + std::string(text)), ElementsAre(HasSubstr(std::string(path) + ":2: " + fault)));
}

INSTANTIATE_TEST_SUITE_P(
    EachKind, LayerIncludeForbidden,
    testing::Values(Forbidden{"core/base/a.h", "#include \"core/units/units.h\"", "\"core/units/units.h\" is of core/units"},
                    Forbidden{"core/units/a.h", "  #  include <fmt/format.h>", "<fmt/format.h> is of fmt"},
                    Forbidden{"core/units/a.h", "#include <QString>", "<QString> is of QtCore"},
                    Forbidden{"core/units/a.h", "#include <sqlite3.h>", "<sqlite3.h> is of sqlite3"},
                    Forbidden{"core/units/a.h", "#include <unistd.h>", "<unistd.h> is of posix"},
                    Forbidden{"ui/kit/a.h", "#include <QChart>", "<QChart> is of QtCharts"},
                    Forbidden{"ui/kit/a.h", "#include \"core/base/id.h\"", "\"core/base/id.h\" is of core/base"},
                    Forbidden{"ui/kit/a.h", "#include \"kit/b.h\"", "\"kit/b.h\" is not written from the project's root"},
                    Forbidden{"ui/kit/a.h", "#include <unheard/of.h>", "<unheard/of.h> is of no library"},
                    Forbidden{"ui/kit/a.h", "#include HEADER", "an #include that is neither quoted nor angled"}));

TEST(LayerRows, AreReadFromThreeColumns) {
  Faults faults;
  const auto rows =
      parse_layers("# head\n\ncore/base | | fmt\nui/kit | core/base core/units | QtCore QtGui\nui/kit core/base\n", faults);
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].layer, "core/base");
  EXPECT_THAT(rows[0].layers, IsEmpty());
  EXPECT_THAT(rows[1].layers, ElementsAre("core/base", "core/units"));
  EXPECT_THAT(rows[1].libraries, ElementsAre("QtCore", "QtGui"));
  EXPECT_THAT(faults, ElementsAre(HasSubstr("ui/kit core/base")));
}

TEST(LayerRows, OrderedOnesPass) { EXPECT_THAT(row_faults(house), IsEmpty()); }

TEST(LayerRows, CirclesAndDisorderAreFound) {
  EXPECT_THAT(row_faults({{"core/a", {"core/b"}, {}}, {"core/b", {"core/a"}, {}}}),
              ElementsAre(HasSubstr("core/a names core/b")));
  EXPECT_THAT(row_faults({{"core/a", {"core/a"}, {}}}), ElementsAre(HasSubstr("core/a names core/a")));
  EXPECT_THAT(row_faults({{"core/a", {}, {}}, {"core/a", {}, {}}}), ElementsAre("core/a has two rows"));
  EXPECT_THAT(row_faults({{"ui/a", {}, {}}, {"core/b", {"ui/a"}, {}}}), ElementsAre("core/b may not reach up to ui/a"));
  EXPECT_THAT(row_faults({{"core/a", {}, {"QtCore"}}}), ElementsAre("core/a is core and may not use QtCore"));
  EXPECT_THAT(row_faults({{"ui/a", {}, {"unheard"}}}), ElementsAre("ui/a names the unknown library unheard"));
}

TEST(LayerFolders, EachNeedsARowAndEachRowAFolder) {
  const std::vector<LayerRow> rows = {{"core/base", {}, {}}, {"core/gone", {}, {}}};
  EXPECT_THAT(folder_faults(rows, {{"core/base/a.h", ""}, {"core/new/a.h", ""}}),
              ElementsAre("core/gone has a row but no sources", "core/new has sources but no row"));
}

TEST(QtHeaders, AreOfTheModuleThatHoldsThem) {
  const auto module = qt_module_in(PRILLBOOK_QT_INCLUDE_DIR);
  EXPECT_EQ(module("QString"), "QtCore");
  EXPECT_EQ(module("QImage"), "QtGui");
  EXPECT_EQ(module("qlabel.h"), "QtWidgets");
  EXPECT_EQ(module("QtWidgets"), "QtWidgets");
  EXPECT_EQ(module("QtCharts/QChart"), "QtCharts");
  EXPECT_EQ(module("QPrinter"), "QtPrintSupport");
  EXPECT_EQ(module("QSvgRenderer"), "QtSvg");
  EXPECT_EQ(module("QUnheardOf"), "");
}

class ThisProject : public testing::Test {
 protected:
  void SetUp() override {
    rows = parse_layers(project_text("docs/layers.txt"), unread);
    ASSERT_FALSE(rows.empty());
    ASSERT_FALSE(files.empty());
  }
  Faults unread;
  std::vector<LayerRow> rows;
  std::vector<SourceFile> files = source_tree({"core", "ui", "app"});
};

TEST_F(ThisProject, LayerRowsAreOrdered) {
  EXPECT_THAT(unread, IsEmpty());
  EXPECT_THAT(row_faults(rows), IsEmpty());
}

TEST_F(ThisProject, EveryFolderHasItsRow) { EXPECT_THAT(folder_faults(rows, files), IsEmpty()); }

TEST_F(ThisProject, EveryIncludeIsAllowed) {
  EXPECT_THAT(include_faults(rows, files, qt_module_in(PRILLBOOK_QT_INCLUDE_DIR)), IsEmpty());
}

TEST_F(ThisProject, EveryFileCarriesItsLicence) {
  Faults faults;
  for (const SourceFile& file : source_tree({"core", "ui", "app", "tests"}))
    if (!file.text.starts_with("// SPDX-License-Identifier: GPL-3.0-or-later\n")) faults.push_back(file.path);
  EXPECT_THAT(faults, IsEmpty());
}

}  // namespace
}  // namespace prillbook::testing_support
