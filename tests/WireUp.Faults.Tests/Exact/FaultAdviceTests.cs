using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Tests.Exact;

public sealed class FaultAdviceTests
{
    public static TheoryData<FaultElementKind, FaultState> Faults => [.. FaultTable.Rates.Select(rate => (rate.Kind, rate.State))];

    [Theory]
    [MemberData(nameof(Faults))]
    public void Every_fault_has_advice_and_a_caution(FaultElementKind kind, FaultState state)
    {
        FaultAdvice advice = FaultAdvice.Of(kind, state);
        Assert.All(new[] { advice.What, advice.Look, advice.Mend, advice.Beware }, text => Assert.True(text.Length > 4, text));
    }

    [Fact]
    public void No_advice_sends_anybody_to_the_mains() => Assert.All(FaultTable.Rates, rate =>
    {
        FaultAdvice advice = FaultAdvice.Of(rate.Kind, rate.State);
        Assert.DoesNotContain("mains", advice.Look + advice.Mend, StringComparison.Ordinal);
        Assert.True(rate.Kind is not FaultElementKind.Booster || advice.Beware.Contains("mains side of a supply shut", StringComparison.Ordinal));
    });
}
