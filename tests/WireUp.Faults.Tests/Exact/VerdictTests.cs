using WireUp.Faults.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Exact;

/// <summary>What is said of suspects that read the same.</summary>
public sealed class VerdictTests
{
    [Fact]
    public void The_next_reading_parts_them_where_one_does() =>
        Assert.Contains("cannot be told apart by these readings; the next reading parts them.", Verdict(ReadingTools.Volts | ReadingTools.Load), StringComparison.Ordinal);

    [Fact]
    public void Where_none_does_it_says_what_to_do_instead()
    {
        string verdict = Verdict(ReadingTools.None);
        Assert.Contains("no other with the tools on hand parts them. Open or mend the first, then look whether the fault has gone.", verdict, StringComparison.Ordinal);
        Assert.StartsWith("A", verdict, StringComparison.Ordinal);
    }

    private static string Verdict(ReadingTools tools)
    {
        ReadingSet set = Chain.Readings(Chain.Volts("s1", 14.75), Chain.Volts("s2", 9.0), Chain.Volts("s3", 9.0)) with { Tools = tools };
        return DiagnosisWords.Verdict(set, FaultSearch.Rank(Chain.Of(4), set, null, null, TestContext.Current.CancellationToken)!);
    }
}
