using WireUp.Checking;
using WireUp.Circuits;
using WireUp.Planning;

namespace WireUp.Documents.Book;

/// <summary>What a plan came to, in one or two sentences.</summary>
internal static class Verdict
{
    /// <summary>The sentences.</summary>
    public static string Of(BookFacts facts)
    {
        PlanResult plan = facts.Plan;
        int errors = plan.Findings.Count(finding => finding.Severity == Severity.Error);
        int warnings = plan.Findings.Count(finding => finding.Severity == Severity.Warning);
        DistrictPower[] failed = [.. plan.Power.Districts.Where(district => !district.CoinTestPasses)];
        if (plan.IsFinished)
        {
            if (plan.Power.Districts.IsEmpty) return "No district feeds any rail yet: nothing was worked out.";
            int late = facts.CoinTests.Count(coin => !coin.TripsInTime);
            string tests = $"every breaker trips at the worst place of its district{(late == 0 ? string.Empty : $", but {late} of them not within half a second")}";
            return $"The check finds no error, {tests}, and nothing is left undone. {Warnings(warnings)}".TrimEnd();
        }

        List<string> reasons = [];
        if (errors > 0) reasons.Add(Figure.Count(errors, "error is found", "errors are found"));
        if (failed.Length > 0) reasons.Add(Figure.Count(failed.Length, "breaker would not trip", "breakers would not trip"));
        if (!plan.Remains.IsEmpty) reasons.Add(Figure.Count(plan.Remains.Length, "thing remains to be solved", "things remain to be solved"));
        return $"{string.Join(", ", reasons)}: see “What remains” and “Findings”. Do not connect a district before its errors are mended.";
    }

    private static string Warnings(int count) => count == 0 ? string.Empty : $"{Figure.Count(count, "warning is", "warnings are")} listed under “Findings”.";
}
