// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/drafts.h"

#include <QtCore/QCryptographicHash>
#include <QtCore/QDir>
#include <QtCore/QFile>
#include <QtCore/QJsonDocument>
#include <QtCore/QJsonObject>
#include <QtCore/QSaveFile>

namespace prillbook::ui {

Drafts::Drafts(const QString& notebook_path, const QString& folder, QObject* parent) : QObject(parent), notebook_(notebook_path) {
  const QByteArray name = QCryptographicHash::hash(notebook_path.toUtf8(), QCryptographicHash::Sha256).toHex().left(24);
  file_ = QDir(folder).filePath(QStringLiteral("drafts-%1.json").arg(QLatin1String(name)));
  timer_.setSingleShot(true);
  timer_.setInterval(500);
  connect(&timer_, &QTimer::timeout, this, &Drafts::write_now);
  read();
}

Drafts::~Drafts() {
  if (timer_.isActive()) write_now();
}

void Drafts::read() {
  QFile file(file_);
  if (!file.open(QIODevice::ReadOnly)) return;
  const QJsonObject drafts = QJsonDocument::fromJson(file.readAll()).object().value(QLatin1String("drafts")).toObject();
  for (auto it = drafts.begin(); it != drafts.end(); ++it)
    if (it->isString()) drafts_.insert(it.key(), it->toString());
}

void Drafts::keep(const QString& key, const QString& text) {
  if (drafts_.value(key) == text && drafts_.contains(key)) return;
  drafts_.insert(key, text);
  if (!timer_.isActive()) timer_.start();  // not put off by who types on and on
}

// At once where it was kept: what stands in the notebook is not to be offered as not written.
void Drafts::forget(const QString& key) {
  if (drafts_.remove(key) > 0 && QFile::exists(file_)) write_now();
}

std::optional<QString> Drafts::draft(const QString& key) const {
  const auto found = drafts_.constFind(key);
  return found == drafts_.constEnd() ? std::nullopt : std::optional(*found);
}

bool Drafts::write_now() {
  timer_.stop();
  if (drafts_.isEmpty()) return !QFile::exists(file_) || QFile::remove(file_);
  QJsonObject drafts;
  for (auto it = drafts_.constBegin(); it != drafts_.constEnd(); ++it) drafts.insert(it.key(), it.value());
  if (!QDir().mkpath(QFileInfo(file_).path())) return false;
  QSaveFile file(file_);
  if (!file.open(QIODevice::WriteOnly)) return false;
  file.setPermissions(QFileDevice::ReadOwner | QFileDevice::WriteOwner);
  file.write(QJsonDocument(QJsonObject{{QStringLiteral("notebook"), notebook_}, {QStringLiteral("drafts"), drafts}}).toJson());
  return file.commit();
}

QString Drafts::state_folder() {
  const QString set = qEnvironmentVariable("XDG_STATE_HOME");
  const QString base = QDir::isAbsolutePath(set) ? set : QDir::home().filePath(QStringLiteral(".local/state"));
  return QDir(base).filePath(QStringLiteral("prillbook"));
}

}  // namespace prillbook::ui
