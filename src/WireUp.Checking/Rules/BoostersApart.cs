using WireUp.Circuits;
using WireUp.Layouts.Reference;

namespace WireUp.Checking.Rules;

/// <summary>Two boosters of different volts: a train over the gap between them carries the balance in its wheels and wires.</summary>
internal sealed class BoostersApart : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU4020", Severity.Warning, "A train over a gap carries current from one booster to another");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        double limit = Constants.Get("train-over-gap-current").Value;
        return context.IsShorted ? [] :
            from worst in TrainsOverGaps.WorstOfEachPair(TrainsOverGaps.Of(context.Graph, PowerOptions.Default.Turnouts))
            where worst.Current.Amperes > limit
            let districts = Ordered(worst)
            select Say(
                $"A train over the gap at {Words.Quote(worst.At.ToString())} carries {Words.Say(worst.Current)} from {Words.Quote(districts.Higher)} to {Words.Quote(districts.Lower)}, whose volts are {Words.Say(UnitsNet.ElectricPotential.FromVolts(Math.Abs(worst.Difference.Volts)))} apart.",
                "Set both boosters to the same volts.",
                worst.At.ToString(),
                worst.District,
                worst.OtherDistrict);
    }

    private static (string Higher, string Lower) Ordered(TrainOverGap train) =>
        train.Difference.Volts > 0 ? (train.District, train.OtherDistrict) : (train.OtherDistrict, train.District);
}
