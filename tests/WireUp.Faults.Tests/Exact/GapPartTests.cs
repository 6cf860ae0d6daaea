using WireUp.Layouts;

namespace WireUp.Faults.Tests.Exact;

/// <summary>Cuts in rails are parts that can fail: insulated joiners and saw cuts, in a joint or within a section, each rail by itself.</summary>
public sealed class GapPartTests
{
    [Theory]
    [InlineData("joints: { spur-1.b: { insulated: true, rails: left } }", FaultElementKind.InsulatedJoint, "insulated joint spur-1.b–spur-2.a, left rail")]
    [InlineData("joints: { spur-1.b: { insulated: true } }", FaultElementKind.InsulatedJoint, "insulated joint spur-1.b–spur-2.a, left rail; insulated joint spur-1.b–spur-2.a, right rail")]
    [InlineData("  gaps: [ { at: spur-1.b, rails: right } ]", FaultElementKind.Gap, "gap at spur-1.b–spur-2.a, right rail")]
    [InlineData("  gaps: [ { at: spur-2@0.4 m } ]", FaultElementKind.Gap, "gap spur-2@0.4 m, left rail; gap spur-2@0.4 m, right rail")]
    public void A_cut_rail_can_be_closed_and_its_kind_is_told(string line, FaultElementKind kind, string places)
    {
        string text = line.StartsWith(' ') ? $"{SmallLayout.Text}\n{line}\n" : SmallLayout.Text.Replace("\nwiring:", $"\n{line}\nwiring:", StringComparison.Ordinal);
        FaultElement[] cuts = [.. FaultSearch.Parts(ExampleLayouts.Read(text, "cut")).Where(part => part.Kind is FaultElementKind.Gap or FaultElementKind.InsulatedJoint)];
        Assert.Equal(places, string.Join("; ", cuts.Select(part => part.Place)));
        Assert.All(cuts, part => Assert.Equal((kind, Reach.Above), (part.Kind, part.Reach)));
    }
}
