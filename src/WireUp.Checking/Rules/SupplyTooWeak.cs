using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Checking.Rules;

/// <summary>A supply that gives in before its booster trips: volts sag and nothing switches off.</summary>
internal sealed class SupplyTooWeak : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU4009", Severity.Warning, "A supply is too weak for its boosters");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        double factor = Constants.Get("supply-over-booster").Value;
        foreach (Supply supply in context.Wiring.Supplies)
        {
            double boosters = context.Wiring.Boosters.Where(booster => booster.Supply == supply.Name).Sum(booster => booster.Amps.Amperes);
            ElectricCurrent gives = ElectricCurrent.FromAmperes((double)supply.Rating.Watts / supply.Output.Volts);
            if (boosters > 0 && Limit.IsBelow(gives.Amperes, factor * boosters))
            {
                yield return Say(
                    $"Supply {Words.Quote(supply.Name)} gives {Words.Say(gives)}, less than {Words.Say(factor)} times the {Words.Say(ElectricCurrent.FromAmperes(boosters))} at which its boosters shut down.",
                    $"Use a supply of {Words.Say(ElectricCurrent.FromAmperes(factor * boosters))} or more at the same volts, or a smaller booster.",
                    supply.Name);
            }
        }
    }
}
