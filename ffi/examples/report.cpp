// A site judged: what fails, what would mend it, and what is still to be asked. Every object frees itself.
#include <loadworthy.h>

#include <fstream>
#include <iostream>
#include <iterator>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

namespace {

struct Free {
    void operator()(lw_site *site) const { lw_site_free(site); }
    void operator()(lw_report *report) const { lw_report_free(report); }
    void operator()(lw_error *error) const { lw_error_free(error); }
};

template <class Object> using Owned = std::unique_ptr<Object, Free>;

std::string_view view(lw_str text) { return text.data ? std::string_view(text.data, text.len) : std::string_view(); }

// Throws what went wrong; an error that is given is owned here at once.
void check(lw_status status, lw_error *error) {
    const Owned<lw_error> owned(error);
    if (status == LW_STATUS_OK) return;
    lw_str message{};
    lw_error_message(owned.get(), &message);
    throw std::runtime_error(std::string(view(message)));
}

Owned<lw_site> read(const std::string &path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) throw std::runtime_error(path + ": could not be read");
    const std::string document((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
    lw_site *site = nullptr;
    lw_error *error = nullptr;
    check(lw_site_parse(path.data(), path.size(), document.data(), document.size(), &site, &error), error);
    return Owned<lw_site>(site);
}

Owned<lw_report> judge(const lw_site *site) {
    lw_report *report = nullptr;
    lw_error *error = nullptr;
    check(lw_site_check(site, nullptr, nullptr, &report, &error), error);
    return Owned<lw_report>(report);
}

} // namespace

int main(int count, char **arguments) try {
    if (count != 2) throw std::runtime_error("write the file of one site");
    const auto site = read(arguments[1]);
    const auto report = judge(site.get());

    lw_outcome outcome = 0;
    lw_error *error = nullptr;
    check(lw_report_outcome(report.get(), &outcome, &error), error);
    std::cout << (outcome == LW_OUTCOME_HOLDS ? "loadworthy" : outcome == LW_OUTCOME_FAILS ? "not loadworthy" : "cannot tell")
              << '\n';

    std::size_t findings = 0;
    check(lw_report_finding_count(report.get(), &findings, &error), error);
    for (std::size_t index = 0; index < findings; ++index) {
        lw_finding finding = lw_finding_init();
        check(lw_report_finding(report.get(), index, &finding, &error), error);
        if (finding.outcome != LW_OUTCOME_FAILS) continue;
        std::cout << view(finding.rule) << " at line " << finding.line << ": " << view(finding.message) << '\n';
        if (finding.remedy.data) std::cout << "  mend: " << view(finding.remedy) << '\n';
    }

    std::size_t questions = 0;
    check(lw_report_question_count(report.get(), &questions, &error), error);
    for (std::size_t index = 0; index < questions; ++index) {
        lw_open_question question = lw_open_question_init();
        check(lw_report_question(report.get(), index, &question, &error), error);
        std::cout << "ask: " << view(question.question) << '\n';
    }
    return outcome == LW_OUTCOME_HOLDS ? 0 : outcome == LW_OUTCOME_FAILS ? 1 : 2;
} catch (const std::exception &error) {
    std::cerr << error.what() << '\n';
    return 3;
}
