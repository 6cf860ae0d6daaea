using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Checking.Tests;

/// <summary>Checks as tests ask for them.</summary>
internal static class Checks
{
    public static ImmutableArray<Finding> Of(Layout layout) => Checker.Check(layout, TestContext.Current.CancellationToken).Findings;

    public static ImmutableArray<Finding> Of(PlanBuilder plan) => Of(plan.Build());

    /// <summary>The findings of one rule.</summary>
    public static ImmutableArray<Finding> Of(PlanBuilder plan, string code) => [.. Of(plan).Where(finding => finding.Code == code)];

    /// <summary>The layout in a text that must be readable.</summary>
    public static Layout Read(string yaml, string name) => ExampleLayouts.Read(yaml, name);
}
