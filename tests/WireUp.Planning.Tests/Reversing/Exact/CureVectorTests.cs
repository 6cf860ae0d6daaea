using System.Globalization;
using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Exact;

/// <summary>
/// Which track cures which plan, tested on the rails with the gaps cut by hand. The list is trade knowledge that was found by
/// colouring the signed graph; a layout is cured when no section's left and right rail are one conductor.
/// </summary>
public sealed class CureVectorTests
{
    /// <param name="layout">The layout.</param>
    /// <param name="gaps">Section and distance, separated by blanks.</param>
    private static bool IsCured(Layout layout, string gaps) => ReversingProof.Shorted(layout, gaps.Split(' ').Select(Place)).IsEmpty;

    private static GapPlace Place(string gap) =>
        Track.DoubleGap(gap.Split('@')[0], double.Parse(gap.Split('@')[1], CultureInfo.InvariantCulture)).At;

    [Theory]
    [InlineData("left@4 right@4", true)]
    [InlineData("tail@1 tail@1.5", false)]
    [InlineData("main@1 main@4", true)]
    [InlineData("left@1 left@4", true)]
    public void Wye(string gaps, bool cured) => Assert.Equal(cured, IsCured(Classics.Wye(), gaps));

    [Theory]
    [InlineData("cross@0.2 upeast@1 upwest@4", true)]
    [InlineData("cross@0.2 downeast@4 downwest@1", true)]
    [InlineData("cross@0.1 cross@0.3", true)]
    [InlineData("east@1 east@4 west@1 west@4", true)]
    [InlineData("east@1 east@4", false)]
    [InlineData("upeast@1 upeast@4", false)]
    public void Folded_oval_with_one_crossover(string gaps, bool cured) =>
        Assert.Equal(cured, IsCured(Classics.FoldedOvalWithCrossover(), gaps));

    [Theory]
    [InlineData("east@1 east@4 west@1 west@4", true)]
    [InlineData("upmid@4 downmid@4 c1@0.2 c2@0.2", true)]
    [InlineData("east@1 east@4", false)]
    [InlineData("c1@0.1 c1@0.3", false)]
    [InlineData("upmid@1 upmid@4", false)]
    public void Folded_oval_with_two_crossovers(string gaps, bool cured) =>
        Assert.Equal(cured, IsCured(Classics.FoldedOvalWithTwoCrossovers(), gaps));

    [Theory]
    [InlineData("westloop@1 westloop@4 eastloop@1 eastloop@4", true)]
    [InlineData("main@1 main@4", false)]
    [InlineData("westloop@1 westloop@4", false)]
    public void Loop_to_loop(string gaps, bool cured) => Assert.Equal(cured, IsCured(Classics.LoopToLoop(), gaps));

    [Theory]
    [InlineData("in@0.5 out@0.5", true)]
    [InlineData("r1@1 r1@2 r2@1 r2@2 r3@1 r3@2", true)]
    [InlineData("r1@1 r1@2 r2@1 r2@2", false)]
    public void Loop_with_storage(string gaps, bool cured) => Assert.Equal(cured, IsCured(Classics.LoopWithStorage(), gaps));

    [Theory]
    [InlineData("c1@1 c1@2 c2@1 c2@2", true)]
    [InlineData("n@1 n@4 s@1 s@4", true)]
    [InlineData("e@1 e@4 w@1 w@4", true)]
    [InlineData("n@1 n@4 e@1 e@4", false)]
    [InlineData("w@4 c1@1 e@1 c2@1", true)]
    [InlineData("c1@1 c1@2", false)]
    [InlineData("n@1 n@4", false)]
    public void Oval_with_two_cut_offs(string gaps, bool cured) => Assert.Equal(cured, IsCured(Classics.OvalWithTwoCutOffs(), gaps));

    [Theory]
    [InlineData("left@4 right@4", false)]
    [InlineData("left@4 right@4 loop@1 loop@4", true)]
    public void Wye_with_a_balloon_on_its_tail(string gaps, bool cured) =>
        Assert.Equal(cured, IsCured(Classics.WyeWithBalloonTail(), gaps));
}
