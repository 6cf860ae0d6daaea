using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>What to buy for the work still to be done: by rating and size, never by make.</summary>
/// <param name="Items">The items, devices first, then wire, then small parts.</param>
public sealed record ShoppingList(ImmutableArray<ShoppingItem> Items)
{
    /// <summary>The usual spare on wire and small parts; common practice, no published source.</summary>
    public static readonly Ratio UsualSpare = Ratio.FromPercent(10);

    /// <summary>Lists what a layout needs beyond what is built.</summary>
    /// <param name="layout">The layout with its wiring.</param>
    /// <param name="before">The layout as built, or null where nothing is.</param>
    /// <param name="schedule">The schedule of <paramref name="layout"/>.</param>
    public static ShoppingList Of(Layout layout, Layout? before, Schedule schedule) =>
        new([.. new ShoppingListBuilder(layout, before?.Wiring ?? Wiring.None, schedule).Build()]);
}

/// <summary>One thing to buy.</summary>
/// <param name="Item">What it is, with its rating or size.</param>
/// <param name="Quantity">How many or how much, spare included.</param>
/// <param name="Unit"><c>pcs</c>, <c>m</c> or <c>ft</c>.</param>
/// <param name="Note">What it is for, and how the quantity came about.</param>
public sealed record ShoppingItem(string Item, int Quantity, string Unit, string Note);
